/** The same on another screen. */
export const SECOND_SCREEN = {
  title: 'Second screen',
  menu: 'The same in another window, or by pointing a camera at a code.',
  same: 'Every screen shows the same. On each of them an alert can be put away and a mark be set, for all.',
  code: 'QR code of the address',
  copy: 'Copy the address',
  open: 'Open a second window',
  done: 'Copied.',
  refused: 'The browser would not copy it. Select the address and copy it by hand.',
  thisMachine:
    'The bridge talks to this computer only, so a phone can’t open this address yet. A second window or a second monitor can.',
} as const;
