/** `lieflat/profile`: the file in which a shop keeps its own figures. */
export { profileReport } from './profile-report.js';
export { profileJsonSchema } from './schema.js';
export { starterProfile } from './starter.js';
export { withCalibration } from './with-calibration.js';
