/** Words of making the call. */

export const CALL_WORDS = {
  title: 'What is it?',
  help: 'One call, before the reveal. The rehearsal goes on meanwhile; pause it if you like.',
  causes: 'The cause',
  sure: 'How sure are you that this is it?',
  percent: 'per cent',
  guess: 'a guess',
  certain: 'certain',
  trainee: 'Who calls it',
  make: 'This is my call',
  without: 'Tell me without a call',
  withoutWhy: 'Ends the rehearsal. It counts neither as right nor as wrong.',
  made: 'Your call is kept',
  madeWhy:
    'Have it revealed, which ends the rehearsal; or go on first and see what your call would cure.',
  reveal: 'Reveal it now',
  goOn: 'Go on first',
} as const;
