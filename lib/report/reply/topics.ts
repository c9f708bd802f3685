import type { FindingCode } from '../../vetting/finding.js';

/** What is looked at in a file; each holds several kinds of finding. */
export const REPLY_TOPICS = [
  'file',
  'size',
  'columns',
  'density',
  'stitch-length',
  'underlay',
  'locks',
  'trims',
  'lettering',
] as const;
export type ReplyTopic = (typeof REPLY_TOPICS)[number];

const TOPIC: Readonly<Partial<Record<FindingCode, ReplyTopic>>> = {
  'does-not-fit-hoop': 'size',
  'little-room-in-hoop': 'size',
  'does-not-fit-place': 'size',
  'satin-too-wide': 'columns',
  'satin-too-narrow': 'columns',
  'wide-satin-heavy-underlay': 'underlay',
  'wide-satin-no-underlay': 'underlay',
  'satin-over-foam': 'density',
  'satin-too-dense': 'density',
  'satin-too-open': 'density',
  'fill-too-dense': 'density',
  'fill-too-open': 'density',
  'fill-too-many-points': 'density',
  'dense-place': 'density',
  'layers-stacked': 'density',
  'needle-points-piled': 'density',
  'stitch-too-short': 'stitch-length',
  'stitch-too-long': 'stitch-length',
  'jump-not-trimmed': 'trims',
  'no-trims': 'trims',
  'missing-lock': 'locks',
  'lettering-too-small': 'lettering',
};

/** The topic that a kind of finding belongs to. */
export const topicOf = (code: FindingCode): ReplyTopic => TOPIC[code] ?? 'file';
