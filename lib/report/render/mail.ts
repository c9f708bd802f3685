/** A document as plain mail: no paint, no marks, lines that no mail program breaks again. */
import type { ReportDocument } from '../document.js';
import { blocksAsText } from './text.js';

/** Columns that RFC 3676 (format=flowed, 4.2) keeps lines within, and with them any reply's quotation marks. */
const WIDTH = 72;

/** Sets a document; its title is the subject, for whoever sends it. */
export const renderMail = ({ blocks }: ReportDocument): string => blocksAsText(blocks, { width: WIDTH });
