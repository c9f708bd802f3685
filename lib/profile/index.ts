/** `lieflat/profile`: the file in which a shop keeps its own figures. */
export { withThreads } from './edited-profile.js';
export { profileReport } from './profile-report.js';
export { profileJsonSchema } from './schema.js';
export { starterProfile } from './starter.js';
export { withCalibration } from './with-calibration.js';
