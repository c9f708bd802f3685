/** What a thread of the packed program runs: the same program, started the same way. */
module.exports = require('./main.js').load().workOn;
