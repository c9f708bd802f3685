/** Whole numbers from `first` to `last`, both included where they are no more than `most`; of more, evenly spread ones from `first` on. */
export function evenly(first: number, last: number, most: number): number[] {
  const step = Math.ceil((last - first + 1) / most);
  const out: number[] = [];
  for (let i = first; i <= last; i += step) out.push(i);
  return out;
}
