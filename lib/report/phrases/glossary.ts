/** The words of the house: each thing has one name, everywhere a person reads. */

export interface Term {
  readonly name: string;
  /** One line, as it would be said at the machine. */
  readonly meaning: string;
  /** Where a sheet for the operator needs it. */
  readonly spanish?: string;
}

export const GLOSSARY: readonly Term[] = [
  { name: 'fabric', meaning: 'what is sewn on, whatever it is made of', spanish: 'tela' },
  { name: 'garment', meaning: 'the piece that the fabric belongs to', spanish: 'prenda' },
  { name: 'top thread', meaning: 'the thread that shows', spanish: 'hilo de arriba' },
  { name: 'bobbin', meaning: 'the thread underneath', spanish: 'bobina' },
  { name: 'backing', meaning: 'the sheet behind the fabric', spanish: 'estabilizador' },
  { name: 'topping', meaning: 'the film on top of the fabric', spanish: 'película' },
  { name: 'hoop', meaning: 'the frame that holds the fabric', spanish: 'bastidor' },
  { name: 'underlay', meaning: 'the stitches sewn first, under those that show', spanish: 'base' },
  { name: 'satin', meaning: 'a column of stitches that swing from edge to edge', spanish: 'satín' },
  { name: 'fill', meaning: 'an area of rows of shorter stitches', spanish: 'relleno' },
  { name: 'run', meaning: 'a line of stitches', spanish: 'corrida' },
  { name: 'spacing', meaning: 'how far apart neighboring stitches or rows lie' },
  { name: 'density', meaning: 'needle points on a square millimeter' },
  { name: 'pull compensation', meaning: 'how far edges are drawn out because sewing pulls them in' },
  { name: 'trim', meaning: 'where the machine cuts the thread', spanish: 'corte' },
  { name: 'tie-in', meaning: 'tiny stitches that lock the thread where it starts' },
  { name: 'tie-off', meaning: 'tiny stitches that lock the thread where it ends' },
  {
    name: 'color change',
    meaning: 'where the machine changes to the next thread',
    spanish: 'cambio de color',
  },
  { name: 'needle', meaning: 'named by its point and size', spanish: 'aguja' },
  { name: 'speed', meaning: 'stitches a minute', spanish: 'velocidad' },
  { name: 'sew-out', meaning: 'a test sewn on the same fabric' },
  { name: 'wash', meaning: 'one cycle of a household washer and dryer', spanish: 'lavada' },
  { name: 'grade', meaning: 'how smooth it looks, 5 (smooth) to 1 (severe)' },
];
