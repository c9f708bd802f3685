import type { Severity } from '../../vetting/finding.js';
import { tag } from '../render/markup.js';

/** The word of a severity in its frame: filled, solid or dashed, so that a black and white print tells them apart. */
export const severityMark = (severity: Severity): string =>
  tag('strong', { class: `severity ${severity}` }, severity.toUpperCase());
