/** What a thread of the packed program runs: the same program, from the same compiled code. */
module.exports = require('./main.js').load().program.workOn;
