/** The chart's buttons, its key, and what is said of how to use it. */

export const CHART_TOOLS = {
  zoomIn: 'Zoom in on time',
  zoomOut: 'Zoom out in time',
  all: 'All',
  allAloud: 'All of the recording',
  usual: 'Usual',
  usualAloud: 'Usual view',
  backToNow: 'Back to the present',
  backToEnd: 'Back to the end',
  help:
    'Arrow keys read the values along the curve. Plus and minus zoom, Shift with an arrow moves, ' +
    'Home goes to the beginning, End to the present, zero shows the whole recording, and Escape the usual view.',
  kind: 'chart',
  key: 'Signs in the chart',
  take: 'Picture, table',
  saveAs: 'Save what is shown',
  saveSvg: 'SVG, to print or to edit',
  savePng: 'PNG, to send',
  saveFailed: 'The picture could not be made. The SVG can still be saved.',
  table: 'Readings as a table',
} as const;

export const KEY_WORDS = {
  measured: 'measured',
  foreseen: 'forecast, right 8 times of 10',
  fitted: 'fitted, with its 80 % band',
  arrival: 'when it gets there, 8 times of 10',
  typedIn: 'typed in by hand',
} as const;

export const TABLE_WORDS = {
  clock: 'Clock',
  pressure: 'Pressure',
  boils: 'Water boils at',
} as const;
