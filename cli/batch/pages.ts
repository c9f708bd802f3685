/** What pages of a batch take of the reports, and no more: loaded where a page is asked for. */
export { batchSummaryPage, joinVetSections, vetSection } from '../../lib/report/index.js';
