/** The walls of the house, as rules over imports. DEVELOPERS.md says why each stands. */
const PURE = '^web/(analysis|words|figure|report)/';
/** The judge's rooms from the ground up: each imports those before it, and the conclusions that all speak in. */
const JUDGE_FLOORS = [
  ...['fitting', 'readings', 'pull-down', 'stages', 'flows', 'rise', 'verdict'],
  ...['next-hold', 'seen', 'hunt', 'cycles', 'nitrogen', 'closing', 'training'],
];
const SERVER_ROOMS = ['sources', 'record', 'stream', 'http', 'jobs', 'sharing', 'vans'];

module.exports = {
  forbidden: [
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'protocol-imports-nothing-of-ours',
      severity: 'error',
      from: { path: '^protocol/' },
      to: { path: '^(server|web|simulators|tests)/' },
    },
    {
      name: 'simulators-import-only-protocol',
      severity: 'error',
      from: { path: '^simulators/' },
      to: { path: '^(server|web|tests)/' },
    },
    {
      name: 'web-imports-only-protocol',
      severity: 'error',
      from: { path: '^web/', pathNot: '^web/plan/' },
      to: { path: '^(server|simulators|tests)/' },
    },
    {
      name: 'planner-alone-uses-the-physics',
      severity: 'error',
      from: { path: '^web/plan/' },
      to: { path: '^(server|tests|simulators/(?!physics/))' },
    },
    {
      name: 'pure-folders-import-only-pure-ones',
      severity: 'error',
      from: { path: PURE },
      to: { path: '^web/', pathNot: PURE },
    },
    {
      name: 'pure-folders-use-no-node-modules-of-the-outside-world',
      severity: 'error',
      from: { path: PURE },
      to: { dependencyTypes: ['core'] },
    },
    ...JUDGE_FLOORS.map((floor, at) => ({
      name: `judge-${floor}-stands-on-what-is-below`,
      severity: 'error',
      from: { path: `^web/analysis/${floor}/` },
      to: {
        path: '^web/analysis/',
        pathNot: `^web/analysis/(conclusions\\.ts$|(${JUDGE_FLOORS.slice(0, at + 1).join('|')})/)`,
      },
    })),
    {
      name: 'every-room-of-the-judge-has-a-floor',
      severity: 'error',
      from: {
        path: '^web/analysis/[^/]+/',
        pathNot: `^web/analysis/(${JUDGE_FLOORS.join('|')})/`,
      },
      to: {},
    },
    {
      name: 'server-imports-only-the-pure-part-of-the-page',
      severity: 'error',
      from: { path: '^server/' },
      to: { path: '^(tests/|web/)', pathNot: PURE },
    },
    {
      name: 'nobody-imports-tests',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
    {
      name: 'nobody-imports-server',
      severity: 'error',
      from: { pathNot: '^(server|tests)/' },
      to: { path: '^server/' },
    },
    ...SERVER_ROOMS.map((room) => ({
      name: `server-${room}-keeps-to-itself`,
      severity: 'error',
      from: { path: `^server/${room}/` },
      to: { path: '^server/', pathNot: `^server/${room}/` },
    })),
    {
      name: 'one-file-knows-the-host-library',
      severity: 'error',
      from: {
        pathNot: '^server/sources/radio/load-host-library\\.ts$|^tests/|^simulators/sensor/',
      },
      to: { path: 'node_modules/@(abandonware|stoprocent)/' },
    },
    {
      name: 'one-folder-knows-the-pdf-library',
      severity: 'error',
      from: { pathNot: '^server/http/report-pdf/' },
      to: { path: 'node_modules/(@types/)?(pdfmake|pdfkit)/' },
    },
    {
      name: 'one-file-knows-the-broker-library',
      severity: 'error',
      from: { pathNot: '^server/vans/broker/broker-connection\\.ts$|^tests/' },
      to: { path: 'node_modules/mqtt/' },
    },
    {
      name: 'one-folder-knows-the-database-of-an-office',
      severity: 'error',
      from: { pathNot: '^server/vans/office/|^tests/' },
      to: { path: 'node_modules/(@types/)?pg/' },
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      // What changes lines and asks the tests is installed only where somebody asks.
      from: { pathNot: '^tests/mutation/' },
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(web/dist|tests/output)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.cjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
