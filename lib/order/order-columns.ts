/** Columns of an order, in the order in which one is usually written; a table may have them in any. Help lists them without loading the rest. */
export const ORDER_COLUMNS = [
  'file',
  'garment',
  'quantity',
  'place',
  'threads',
  'backing',
  'garmentColor',
  'order',
  'customer',
  'due',
  'remarks',
] as const;
export type OrderColumn = (typeof ORDER_COLUMNS)[number];
