/** `lieflat/order`: an order of several designs: its table, one setup a fabric, what it takes from the shelf, graded cards. */

export { type GradedCards, readGradedCards, type SewnOrderLine } from './graded-cards.js';
export { emptyManifest, manifestText, type OrderManifest, readManifest } from './manifest.js';
export {
  joinedFaults,
  linesOfFiles,
  type OrderFault,
  type OrderLine,
  type OrderLookup,
  type OrderTable,
  readOrder,
} from './order-table.js';
export { type OfferedLine, type OfLine, type OrderSetup, sharedSetup } from './shared-setup.js';
export { type CutPieces, type LineNeeds, type Supplies, suppliesOf } from './supplies.js';
