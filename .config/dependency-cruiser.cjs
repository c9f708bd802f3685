/** The house rules on imports: stations run one way, below the map that joins them; no circles; files only at the edge. */
const later = (station, stations) => ({
  name: `${station}-knows-no-later-station`,
  severity: 'error',
  from: { path: `^lib/${station}/` },
  to: { path: `^lib/(${stations.join('|')})/` },
});

const order = ['core', 'format', 'geometry', 'segment', 'stitch', 'measure', 'materials', 'vetting', 'mechanics', 'advice', 'rework', 'calibrate', 'order', 'report', 'io', 'profile'];

module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    ...order.slice(0, -1).map((station, i) => later(station, order.slice(i + 1))),
    {
      name: 'stations-know-no-map',
      severity: 'error',
      from: { path: '^lib/[^/]+/' },
      to: { path: '^lib/[^/]+\\.ts$' },
    },
    {
      name: 'files-only-at-the-edge',
      severity: 'error',
      from: { path: '^lib/', pathNot: '^lib/io/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'lib-knows-no-command-line',
      severity: 'error',
      from: { path: '^lib/' },
      to: { path: '^cli/' },
    },
    {
      // The public entries of the package, as its `exports` name them.
      name: 'cli-enters-by-the-front-door',
      severity: 'error',
      from: { path: '^cli/' },
      to: { path: '^lib/', pathNot: ['^lib/index\\.ts$', '^lib/[a-z]+/index\\.ts$', '^lib/pipeline\\.ts$'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    exclude: { path: '^\\.build' },
  },
};
