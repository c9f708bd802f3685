/** `lieflat/profile`: the file in which a shop keeps its own figures. */
export type { Difference, ProfileFigure } from './differences.js';
export { type ProfileReport, profileReport, profileToText } from './profile-report.js';
export { profileJsonSchema } from './schema.js';
export { starterProfile } from './starter.js';
export { withCalibration } from './with-calibration.js';
