/**
 * All wording, in English: the one file that a translation begins with. Plain strings, and functions
 * that place values which are already written out; how a number, a time or a length is written, and
 * which sentence is said when, is decided elsewhere (`speech.ts`, `say-*.ts`). In the order in which
 * the screens are met. Longer than other files may be: it is a table.
 */
import { PROBLEMS } from '../../protocol/problems.ts';
import { pluralsIn } from './plural.ts';

const many = pluralsIn('en');

export const english = {
  /** How amounts are given, wherever one stands. */
  amounts: {
    units: { micron: 'micron', Pa: 'Pa', mbar: 'mbar', Torr: 'Torr', inHg: 'inHg' },
    /** After exactly one of them. */
    unitOfOne: { micron: 'micron', Pa: 'Pa', mbar: 'mbar', Torr: 'Torr', inHg: 'inHg' },
    unknown: 'unknown',
    notMeasured: 'not measured',
    perMinute: ({ amount }: { amount: string }) => `${amount} a minute`,
    between: ({ low, high }: { low: string; high: string }) => `between ${low} and ${high}`,
    about: ({ amount }: { amount: string }) => `about ${amount}`,
    aboutBetween: ({ about, low, high }: { about: string; low: string; high: string }) =>
      `about ${about}, between ${low} and ${high}`,
    noMoreThan: ({ most }: { most: string }) => `no more than ${most}`,
    /** 'about 38, and surely from 34 to 42', in few letters. */
    range: ({ about, low, high }: { about: string; low: string; high: string }) =>
      `${about} (${low} to ${high})`,
    fromTo: ({ low, high }: { low: string; high: string }) => `${low} to ${high}`,
    atLeastWithoutEnd: ({ least }: { least: string }) => `at least ${least}, with no upper end`,
    giveOrTakeLess: ({ amount }: { amount: string }) => `give or take less than ${amount}`,
    aMinute: 'a minute',
    nothingRises: 'nothing rises',
    notToldApart: 'not told apart yet',
  },

  header: {
    rehearsal: 'Rehearsal',
    sheet: 'Job sheet',
    menu: 'Menu',
    batteryLow: ({ percent }: { percent: string }) => `${percent}, low`,
    look: ({ shown, next }: { shown: string; next: string }) =>
      `Look: ${shown}. Change to ${next}.`,
  },

  /** The page's connection to the bridge, and the bridge's to the sensor. */
  connection: {
    connecting: 'Connecting to the bridge',
    catchingUp: 'Catching up with the record',
    live: 'Connected',
    lost: ({ since }: { since: string }) => `Connection to the bridge lost since ${since}`,
    lostRemedy:
      'The record goes on as long as the bridge runs. This page tries again by itself; ' +
      'if that lasts, start the bridge with: npm start',
    otherVersion: 'Page and bridge are of different versions',
    otherVersionRemedy:
      'No reading comes to this page. Close all its windows and open it again; ' +
      'if it still says so, stop the bridge and start it again with: npm start',
    phases: {
      starting: 'starting',
      searching: 'looking for a sensor',
      found: 'found, its turn comes',
      connecting: 'connecting',
      live: 'live',
      weak: 'live, weak signal',
      backfilling: 'live, fetching what was missed',
      stale: 'silent',
      lost: 'lost',
      gone: 'out of reach',
      paused: 'paused',
      finished: 'finished',
      unavailable: 'not available',
    },
    fetching: ({ count }: { count: number }) =>
      `live, fetching ${count} missed ${many(count, { one: 'reading', other: 'readings' })}`,
    since: ({ phase, since }: { phase: string; since: string }) => `${phase} since ${since}`,
    notKept: 'not in the record',
    bluetooth: 'Bluetooth',
    sensor: 'Sensor',
    atRest: {
      searching: 'Looking for a sensor',
      found: 'A sensor is found',
      connecting: 'Connecting to the sensor',
      connected: 'The sensor is connected; its first reading is awaited',
      lost: 'The sensor is not connected',
      unavailable: 'No sensor can be heard',
      starting: 'Bluetooth is starting',
    },
    unreachable: 'The bridge does not answer. Is it still running?',
    notUnderstood: 'The bridge’s answer was not understood. Reload the page.',
    languageMissing: ({ language }: { language: string }) =>
      `“${language}” could not be fetched from the bridge, so the page stays in this language. Reload it to try again.`,
    close: 'Close',
    anotherRuns: 'Another recording is running. Its alerts still call you.',
    showIt: 'Show it',
  },

  /** What is said when readings are not being kept. */
  record: {
    waiting: ({ waiting }: { waiting: string }) =>
      `Readings that wait in memory, and are not on the curve: ${waiting}.`,
    refused: ({ waiting, refused }: Record<'waiting' | 'refused', string>) =>
      `Readings that wait in memory: ${waiting}; not kept: ${refused}.`,
    keptAside: ({ file }: { file: string }) =>
      `Meanwhile readings are kept in a file beside it, and are not on the curve: ${file}`,
    salvaged: ({
      saved,
      atLeast,
      otherSaved,
      otherAtLeast,
      folder,
    }: Record<'saved' | 'atLeast' | 'otherSaved' | 'otherAtLeast' | 'folder', string>) =>
      `Saved: ${saved} of at least ${atLeast} readings, ${otherSaved} of at least ${otherAtLeast} other entries. The damaged files lie in ${folder}`,
  },

  /** Of several vans: what is said when the office is not reached. */
  office: {
    unreached: ({ since, waiting }: Record<'since' | 'waiting', string>) =>
      `Office not reached since ${since}. Readings still to be sent: ${waiting}.`,
  },

  /** The page before the first recording. */
  firstMinute: {
    toSensor: 'With a sensor',
    none: 'No sensor is looked for',
    onItsOwn:
      'Switch the sensor on, within reach. Recording starts by itself with its first reading.',
    toRehearsal: 'Without one',
    learn: 'Rehearse on a simulated job',
    firstJob:
      'The pump pulls down a bakery’s cold room, twenty times as fast as in life. Nothing is connected and nothing can break: watch the number, then say what was wrong, if anything.',
    first: 'Start this rehearsal',
    others: 'Choose another job',
    otherwise: 'Or',
  },
  /** From the systems' own handbooks, from memory; to be tried with an adapter in hand. */
  bluetoothHelp: {
    adapter: {
      linux: [
        'Plug in a Bluetooth adapter, 4.0 or later. “bluetoothctl list” shows whether it is seen.',
        'A built-in one may be blocked: “rfkill list”, then “rfkill unblock bluetooth”.',
        'In a virtual machine or a container, pass the adapter through to it.',
      ],
      macos: ['System Settings, Bluetooth: switch it on.', 'If it is missing there, restart.'],
      windows: [
        'Settings, Bluetooth & devices: switch it on.',
        'A desktop computer may have none: plug in an adapter, 4.0 or later.',
      ],
      other: ['Plug in a Bluetooth adapter, 4.0 or later.'],
    },
    off: {
      linux: ['Switch Bluetooth on in the settings, or run “bluetoothctl power on”.'],
      macos: ['System Settings, Bluetooth: switch it on.'],
      windows: ['Settings, Bluetooth & devices: switch it on. Check for a flight mode.'],
      other: ['Switch Bluetooth on in the settings of this computer.'],
    },
    permission: {
      linux: [
        'Stop the bridge with Ctrl+C.',
        'Run once: sudo setcap cap_net_raw+eip $(readlink -f $(which node))',
        'Start it again: npm start',
      ],
      macos: [
        'System Settings, Privacy & Security, Bluetooth: allow the terminal in which the bridge runs.',
        'Start the bridge again: npm start',
      ],
      windows: [
        'Settings, Privacy & security, Radios: let desktop apps use them.',
        'Start the bridge again: npm start',
      ],
      other: ['Allow the program that runs the bridge to use Bluetooth.'],
    },
  },
  problems: PROBLEMS,

  /** The one number, and what stands under it. */
  reading: {
    none: 'No reading yet',
    noneBeside: 'no reading yet',
    notLive: ({ since }: { since: string }) => `not live since ${since}`,
    notKept: ({ since }: { since: string }) =>
      `the last reading; none in the record since ${since}`,
    typedIn: ({ at }: { at: string }) => `typed in at ${at}`,
    asOf: ({ at }: { at: string }) => `As of the reading typed in at ${at}.`,
    last: 'the last reading',
    lastBeside: ({ pressure }: { pressure: string }) => `${pressure}, the last reading`,
    catchingUp: 'catching up',
    ofStub: 'the sensor’s stub only',
    judgedUpTo: ({ at }: { at: string }) =>
      `Judged up to ${at}: then the sensor was shut off. The number since then is of the sensor’s own stub, not of the system.`,
    shutOff: ({ at }: { at: string }) =>
      `The sensor was shut off at ${at}, before a hold had been judged to its end. The number since then is of the sensor’s own stub, not of the system.`,
    conditions: {
      ok: 'The sensor gives no number',
      over_range: 'above the sensor’s range',
      under_range: 'below the sensor’s range',
      warming_up: 'The sensor is still warming up.',
      fault: 'The sensor reports a fault',
    },
    trend: { falling: 'falling', rising: 'rising', steady: 'steady' },
    trendFast: { falling: 'falling fast', rising: 'rising fast' },
    trendRate: {
      falling: ({ rate }: { rate: string }) => `falling, ${rate}`,
      rising: ({ rate }: { rate: string }) => `rising, ${rate}`,
    },
  },
  /** A second sensor beside the one that is watched. */
  beside: {
    same: ({ first, within }: { first: string; within: string }) =>
      `the same as ${first} within ${within}`,
    below: ({ apart, first, within }: { apart: string; first: string; within: string }) =>
      `${apart} below ${first}, give or take ${within}`,
    above: ({ apart, first, within }: { apart: string; first: string; within: string }) =>
      `${apart} above ${first}, give or take ${within}`,
    gaugesUnsaid: 'As they show it; the gauges’ own error is not on the job sheet.',
    others: ({ count }: { count: number }) => `${count} other sensors`,
    choose: 'Sensor',
  },

  stages: {
    names: {
      waiting: 'Before the pull-down',
      pull_down: 'Pull-down',
      at_depth: 'At depth',
      rise: 'Rise',
      pump_stopped: 'Pump stopped',
      nitrogen_break: 'Nitrogen break',
      vented: 'Vented',
    },
    /** As what else the curve may be read. */
    alternatives: {
      waiting: 'nothing pumped yet',
      pull_down: 'it is still pumped',
      at_depth: 'it is still pumped',
      rise: 'it was valved off',
      pump_stopped: 'the pump stands still',
      nitrogen_break: 'nitrogen was let in',
      vented: 'it was opened',
    },
    seen: 'seen in the curve',
    orElse: ({ reading, other }: { reading: string; other: string }) => `${reading}, or ${other}`,
    recording: 'recording',
    beforeAny: 'Before the first conclusion',
  },

  forecast: {
    reached: ({ target }: { target: string }) => `${target} reached`,
    andDepth: ({ depth }: { depth: string }) => `and ${depth}, to valve off at`,
    depthIn: ({ depth, time, between }: { depth: string; time: string; between: string }) =>
      `${depth} in about ${time}, ${between}`,
    willBeReached: ({ target }: { target: string }) => `${target} will be reached`,
    whenUnknown: 'when is not known',
    reachedIn: ({ target, time }: { target: string; time: string }) => `${target} in about ${time}`,
    soonest: ({ target, time }: { target: string; time: string }) =>
      `${target} in ${time} at the soonest`,
    noUpperEnd: 'no upper end is known',
    boiling: 'Water is boiling off',
    boilingEnds: 'Water is boiling off: this ends, but without warning.',
    boilingWithoutEnd: 'This ends, but without warning: no upper end is known.',
    levelsOffAbove: ({ target }: { target: string }) => `Levels off above ${target}`,
    levelsOffNear: ({ floor }: { floor: string }) => `Levels off near ${floor}`,
    notInEightHours: ({ target }: { target: string }) =>
      `It would not reach ${target} within eight hours.`,
    tooEarly: 'Too early to say when',
    depthUnknown: ({ depth }: { depth: string }) =>
      `When ${depth}, the depth to valve off at, is reached is not known yet.`,
    depthSoonest: ({ depth, between }: { depth: string; between: string }) =>
      `${depth}, the depth to valve off at: ${between}.`,
    depthAbout: ({ depth, time, between }: { depth: string; time: string; between: string }) =>
      `${depth}, the depth to valve off at, in about ${time}, ${between}.`,
    sinceChange: ({ length }: { length: string }) =>
      `From the last ${length}, since something changed.`,
  },
  /** Why neither forecast nor verdict is shown: they would speak of a present that nobody measures. */
  withheld: {
    bridge: 'This page has lost the bridge',
    nothingSince: ({ since }: { since: string }) => `nothing has come since ${since}`,
    untilBack: 'Forecast and verdict wait until it is back.',
    recordGoesOn:
      'The record goes on as long as the bridge runs; what is missing here is fetched by itself.',
    noNew: 'No new readings',
    since: ({ since }: { since: string }) => `since ${since}`,
    untilThereAre: 'Forecast and verdict wait until there are.',
    notKept: 'The record takes no readings',
    untilKept: 'Forecast and verdict wait until it does again.',
    whatToDo: 'What to do stands at the top of the page.',
  },
  /** The chance that the hold passes, as a line for whoever is about to turn the valve. */
  holdChance: {
    ifValvedOff: 'If valved off now:',
    /** The chance, then why. */
    because: ({ chance, why }: { chance: string; why: string }) => `${chance}${why}.`,
    notTheSystem: 'the hold tells nothing of the system, since the sensor does not see it.',
    pressureUnknown: 'nobody knows, without a reading.',
    standsTooHigh: ({ limit }: { limit: string }) =>
      `the hold fails, since it starts above ${limit}.`,
    changedSinceHold:
      'the curve can’t tell whether the hold passes, and the last hold counts no more.',
    curveSilent: 'the curve alone can’t tell whether the hold passes.',
    likely: 'the hold most likely passes',
    unlikely: 'the hold most likely fails',
    about: ({ percent }: { percent: string }) =>
      `the hold passes with a chance of about ${percent} %`,
    nobodyCanTell: 'nobody can tell whether the hold passes',
    atMost: ({ percent }: { percent: string }) =>
      `the hold passes with a chance of ${percent} % at most`,
    atLeast: ({ percent }: { percent: string }) =>
      `the hold passes with a chance of ${percent} % at least`,
    between: ({ low, high }: { low: string; high: string }) =>
      `the hold passes with a chance between ${low} and ${high} %`,
    littleCanComeIn: ({ most }: { most: string }) => `: no more than ${most} can come in`,
    stillBoils: ', since water still boils',
    mayStillBoil: ', since water may still boil',
    littleRoom: ': so little room is left below the limit',
    steadyInflow: ({ inflow }: { inflow: string }) =>
      `: the last one showed a steady inflow, ${inflow}`,
    cameToLittle: ': the last one came to little, and pumping has gone on since',
    noLeakShown: ': the last one showed no leak, and what has dried since is not known',
    leftOpen: ': the last one left open whether it leaks',
  },

  verdict: {
    names: {
      tight_dry: 'Tight and dry, for the connected part',
      moisture: 'Moisture, or gas from oil',
      leak: 'Leak: steady inflow',
      leak_and_moisture: 'Leak and moisture',
      undecided: 'Undecided',
    },
    inflow: ({ rate }: { rate: string }) => `inflow ${rate}`,
    belowLeak: 'The inflow is below what counts as a leak.',
    levellingOff: ({ amount }: { amount: string }) => `${amount}, levelling off`,
    leakFrom: 'Air from outside, or gas past a valve from the charged side.',
    both: ({ moisture }: { moisture: string }) =>
      `Steady inflow. Moisture gives ${moisture} and levels off.`,
    bothSince: ({ moisture, since }: { moisture: string; since: string }) =>
      `Steady inflow since ${since}. Moisture gives ${moisture} and levels off.`,
    inOneHold:
      'In one hold, gas given off too evenly to bend the curve looks like a leak. Repeat the hold after pumping: a leak rises as fast again.',
    undecidedMore: ({ more }: { more: string }) => `Undecided: another ${more}`,
    stood: ({ pressure, length }: { pressure: string; length: string }) =>
      `Stood at ${pressure} after ${length}.`,
    willStand: ({ pressure, length }: { pressure: string; length: string }) =>
      `Will stand near ${pressure} after ${length}.`,
  },
  /** Why there is no verdict yet, or why it is not a pass. */
  reservations: {
    too_early: 'the curve does not tell leak and moisture apart yet',
    between_limits: 'the result lies so close to a limit that it could be either side',
    falling:
      'the pressure falls: a valve lets gas through to the pump, or the sensor sits on the pump’s side',
    evening_out:
      'the pressure fell at first, while it evened out along the lines: it needs longer at rest',
    steepening:
      'the rise grows steeper, as while gas still spreads to other parts or the metal’s temperature changes: a leak may hide behind that',
    temperature:
      'the temperature has changed so much that vapour coming and going with it may hide a leak: shade the system, or hold for longer',
    temperature_unknown:
      'no thermometer tells how steady the temperature is, and within so short a time a degree of it may hide a leak: hold for longer',
    isolation_unsure:
      'by its curve the pump may still be pulling: mark the valve-off, or open and close the valve',
    not_water_alone:
      'it stands above the vapour pressure of water at the metal’s temperature: not water alone',
    moisture_besides: 'how much of the rise is moisture does not show yet',
    ice_possible: 'the coldest metal may be so cold that ice would hide there',
    not_the_system: 'the sensor does not see the system: change what it sees on the job sheet',
    other_sensor: 'another sensor that watches the system does not bear it out yet',
    step: 'a step in the curve, as when a ball valve lets trapped air go: the hold starts anew',
    gap: 'too many readings are missing',
  },
  /** The pass rule in a line beside the physics, which it never outshouts. */
  ruleBeside: {
    headline: ({ outcome }: { outcome: string }) => `Pass rule: ${outcome}`,
    ourSettings: 'our settings',
    asksForNothing: 'asks for nothing',
    notJudged: 'not judged',
    couldBeEither: 'It could be either. A gauge that errs less, or a deeper start, would tell.',
    smallButFails: 'The rise is small and levels off, but the rule decides.',
    notSeen: 'No readings at the moment that counts.',
    besidesPass: {
      tight_dry: '',
      moisture: 'It lets this through; the moisture is there all the same.',
      leak: 'It lets this leak through: do not close up on it.',
      leak_and_moisture: 'It lets this leak and moisture through: do not close up on it.',
      undecided: 'That alone does not make the system tight and dry.',
    },
    willPass: 'On this curve it will pass.',
    foreseen: {
      fails: 'On this curve it will fail.',
      within_gauge_error: 'On this curve it will come out close to the limit.',
      not_held_long_enough: '',
      not_seen: '',
    },
  },

  /** The thing to do, and why or how where that is not plain. */
  next: {
    name: 'Next',
    startPump: {
      todo: 'Start the pump.',
      how: 'Gas ballast open, where the pump has one. The recording already runs.',
    },
    closeBallast: {
      todo: 'Close the gas ballast.',
      how: 'Its work is done; the pump goes deeper without it.',
    },
    closeBallastIfAny: {
      todo: 'Close the gas ballast, if the pump has one.',
      how: 'And mark it here: the forecast starts afresh from there.',
    },
    letItBoil: {
      todo: 'Keep pumping, and warm what is cold.',
      how: 'Water boils off and cools itself; heat ends it sooner.',
    },
    keepPumping: {
      todo: 'Keep pumping.',
      how: ({ depth }: { depth: string }) => `Valve off at ${depth}, then stop the pump.`,
    },
    findCause: {
      todo: 'Find out why: a check tells.',
      how: 'The likely causes are below, with the check that tells them apart.',
    },
    lookForInflow: {
      todo: 'Look at pump and valves: the pressure rises.',
      how: 'Pump running? Valves to it open? Nothing loosened?',
    },
    lookAtSensor: {
      todo: 'Look at the sensor.',
      how: 'Oil in it, or beyond its range? Compare with another.',
    },
    findLeak: {
      todo: 'Find the leak, or hold again.',
      how: 'If the slope is the same again, it is a leak. Mark it when joints were tightened.',
    },
    valveOff: {
      todo: 'Valve off now.',
      how: ({ depth }: { depth: string }) =>
        `Held below ${depth}. Close the valve first, then stop the pump.`,
    },
    waitForVerdict: {
      todo: ({ more }: { more: string }) => `Wait another ${more}.`,
      how: 'Touch no valve meanwhile; keep the metal’s temperature as it is.',
    },
    finishHold: {
      todo: ({ left }: { left: string }) => `Let the hold run its ${left} to the end.`,
      how: 'The rule asks for the whole hold.',
    },
    holdAgain: {
      todo: 'Pump ten minutes, then hold again.',
      how: 'A real leak’s slope stays; gas from walls and oil shrinks.',
    },
    sensorToSystem: {
      todo: 'Open the sensor to the system, and say so on the job sheet.',
      how: 'What it sees now says nothing about the system.',
    },
    checkValve: {
      todo: 'Check that the valve is shut and where the sensor sits.',
      how: 'A closed system does not lose pressure by itself.',
    },
    warmIt: {
      todo: 'Warm the coldest part, then hold again.',
      how: 'Ice gives off too little to be seen, and is still water.',
    },
    nitrogenBreak: {
      todo: 'Break the vacuum with dry nitrogen, then pump again.',
      how: 'Through a regulator, to just above atmosphere. Valve off the sensor if it is not rated for it.',
    },
    stubTest: {
      todo: 'Exclude hose and sensor joint first.',
      how: 'Close the core tool and watch the stub for 3 minutes. If it rises alike, the leak is there.',
    },
    stubTestThenBreak: {
      todo: 'Leak first: exclude hose and sensor joint.',
      how: 'Close the core tool and watch the stub for 3 minutes. Dry with nitrogen once it is tight.',
    },
    /** Closing up, in the order of the work. */
    coresIn: {
      todo: 'Close up: put the cores back.',
      how: 'Under vacuum, through the closed core tool.',
    },
    toolClosed: {
      todo: 'Close the core tool.',
      how: 'Only then take the pump’s hose off.',
    },
    sensorIsolated: {
      todo: 'Shut the sensor off.',
      how: 'The charge would destroy it.',
    },
    valvesOpened: {
      todo: 'Open the valves, and mark it just before.',
      how: 'In the equipment maker’s order.',
    },
    pressurePositive: {
      todo: 'Wait until the gauge shows pressure.',
      how: 'Nothing is taken off before that.',
    },
    toolOff: {
      todo: 'Take hoses and tool off.',
      how: 'Caps on; look for leaks.',
    },
    powerOn: {
      todo: 'Power on.',
      how: 'The compressor is never started in a vacuum.',
    },
    closedUp: {
      todo: 'All closed up.',
      how: 'Sign off, and hand over the report.',
    },
    closedWithoutPass: {
      todo: 'Closed up without a pass.',
      how: 'The last hold did not show it tight and dry: say so in the sign-off, and find out why.',
    },
    pumpAgain: {
      todo: 'Pump down again.',
      how: 'The system is near atmospheric pressure.',
    },
    valveOffAtOnce: {
      todo: 'Close the valve, then look at the pump.',
      how: 'A standing pump lets air and oil back into the system. If you valved off, mark it here.',
    },
  },

  /** The steps of a job, from the nitrogen test to power on. */
  steps: {
    title: 'Steps',
    all: 'All steps',
    group: ({ place }: { place: string }) => `Steps: ${place}`,
    help: 'They go on by themselves with the curve and the marks. What no curve shows is said here.',
    names: {
      nitrogen_test: 'Nitrogen test',
      hook_up: 'Hook up',
      pump_check: 'Check the pump by itself',
      ballast_open: 'Gas ballast open, where there is one',
      pull_down: 'Pull down',
      ballast_close: 'Gas ballast closed',
      target: 'Target reached',
      depth: 'Deep enough to valve off',
      valve_off: 'Valve off',
      pump_off: 'Then stop the pump',
      hold: 'Hold',
      verdict: 'Verdict',
      oil_change: 'Change the pump’s oil',
      cores_in: 'Cores back in, under vacuum',
      tool_closed: 'Core tool closed',
      sensor_isolated: 'Sensor shut off',
      valves_opened: 'Open the valves: charge released',
      pressure_positive: 'Above atmospheric pressure',
      tool_off: 'Hoses and tool off, caps on',
      power_on: 'Power on',
    },
    /** What to do, in a line or two. */
    how: {
      nitrogen_test: 'Tightness first. With the vacuum sensor off the system, or shut off.',
      hook_up:
        'Core tool: cores out, hose to the tool, sensor on its own port at the far side. Manifold: a wide hose from each port straight to the pump, sensor not on the manifold; with cores in it takes far longer.',
      pump_check:
        'Sensor on the blanked-off pump: it should go well below the target within minutes.',
      ballast_open: 'At the start, while much vapour comes.',
      pull_down: 'Pump on; the recording already runs.',
      ballast_close: 'At 3000 micron, or when boil-off ends.',
      target: 'From the curve, once it stays below.',
      depth: 'Half the target or so: a hold begins with a small rise.',
      valve_off: 'Valve first.',
      pump_off: 'Only once the valve is shut.',
      hold: 'Touch no valve; keep the metal’s temperature as it is.',
      verdict: 'From the curve of the hold.',
      oil_change: 'Water went through the pump: its oil is wet now. While it is warm.',
      cores_in: 'With the core tool, through its closed chamber.',
      tool_closed: 'Its valve shut before the hose to the pump is taken off.',
      sensor_isolated:
        'As the last thing before the charge: until here it watches. The charge would destroy it.',
      valves_opened: 'Press just before you open: the jump that follows is the charge’s own.',
      pressure_positive: 'The gauge shows above zero before anything is taken off.',
      tool_off: 'Quickly, then caps with their seals; look for leaks at both.',
      power_on: 'Only now.',
    },
    /** Where the hand is at that moment. */
    cautions: {
      nitrogen_test:
        'Dry nitrogen through a regulator, with a relief device, never above the maker’s test pressure. Never oxygen or air. Ventilate.',
      hook_up:
        'Recover refrigerant, never vent it. Vent the nitrogen before the sensor is opened to it.',
      pump_check: 'Pump and oil are hot; oil mist goes outdoors.',
      pull_down: 'Never run the compressor under vacuum, nor test its windings with high voltage.',
      valve_off: 'Before the pump stops, or oil is drawn back.',
      hold: 'Never open the core tool to the air while the system is under vacuum.',
      oil_change: 'Valve off and stop the pump first. It is hot.',
      cores_in: 'Never open the tool to the air now: the vacuum would be lost.',
      valves_opened: 'Gloves and eye protection: liquid refrigerant burns.',
      power_on: 'The compressor is never started in a vacuum.',
    },
    states: {
      done: 'done',
      now: 'now',
      to_come: 'to come',
      skipped: 'nothing says so',
      not_needed: 'not needed',
    },
    knownBy: { curve: 'from the curve', hand: 'by hand', entry: 'from the job sheet' },
    done: 'Done',
    notNeeded: 'Not needed',
    takeBack: 'Take back',
    battery: {
      enough: ({ left, needs }: { left: string; needs: string }) =>
        `Battery: about ${left} left, about ${needs} needed. Enough.`,
      short: ({ left, needs }: { left: string; needs: string }) =>
        `Battery: about ${left} left, about ${needs} needed. Not enough: have another at hand, and valve off before you change it.`,
      left: ({ left }: { left: string }) => `Battery: about ${left} left.`,
    },
    clock: ({ held, whole, rule }: { held: string; whole: string; rule: string }) =>
      `${held} of ${whole}. Rule: ${rule}.`,
    valveOrder: ({ order }: { order: string }) => `As the equipment maker has it: ${order}`,
    valveOrderUsual:
      'The equipment maker’s order comes first; none is entered. Usual: the large (suction) line first, slowly. Common practice, no source.',
    lost: ({ at, from, to }: { at: string; from: string; to: string }) =>
      `Lost before the release: from ${from} to ${to} at ${at}. Close the tool, find out why, pump again.`,
    flammableCharge: 'The charge is flammable: no ignition source near when it is released.',
  },

  /** Job sheets that are filled in before there is anything to record. */
  prepared: {
    title: 'Prepared job sheets',
    help: 'Filled in beforehand, in the van or the evening before, and kept by the bridge. Once readings come, one tap puts one on the sheet of the job.',
    newOne: 'Prepare a job sheet',
    keep: 'Keep it',
    one: 'Prepared job sheet',
    more: 'What has a page of its own',
    onSheet: 'On the prepared sheet',
    onNew: 'a new one',
    toSheet: 'To its fields',
    takeOver: 'Take it over',
    change: 'Change',
    discard: 'Discard',
    reallyDiscard: 'Yes, for good',
    numbered: ({ number }: { number: string }) => `Sheet ${number}, without a site`,
    waiting: ({ what }: { what: string }) => `Prepared: ${what}.`,
    others: ({ count }: { count: number }) => `Others (${count})`,
    notThis: 'Not now',
    startFrom: 'Begin with what an earlier job had',
    fromNothing: 'with nothing',
    which: 'This is',
    equipment: { other: 'other equipment', same: 'the same equipment' },
    carried: ({ what }: { what: string }) =>
      `Filled in from that job: ${what}. Nothing that was measured or done then.`,
    nothingCarried: 'Nothing is filled in.',
    leftOut: ({ what }: { what: string }) =>
      `Taken over. This job said already, and keeps as it stands: ${what}.`,
  },

  /** Why the curve is as it is: the cause, what in the curve speaks for it, the check that tells. */
  causes: {
    summary: 'Why, and how to tell',
    likelihood: {
      mostLikely: '(most likely)',
      likely: '(likely)',
      possible: '(possible)',
      lessLikely: '(less likely)',
    },
    gas: {
      name: 'Free gas is being pumped out',
      evidence: 'The fall keeps its pace.',
      check: 'Nothing to check.',
    },
    boilOff: {
      name: 'Water is boiling off',
      check:
        'Look for cold, sweating or frosted pipe, and warm it: the pressure rises at first, then falls for good. ' +
        'Warm air or warm cloths, never a flame. It ends by itself, only later.',
      lingers: ({ triplePoint }: { triplePoint: string }) =>
        `The pressure lingers near or below the triple point, ${triplePoint}.`,
      lingersAt: ({ pressure, temperature }: { pressure: string; temperature: string }) =>
        `The pressure lingers. At ${pressure} water boils at ${temperature}: what boils has cooled itself to about that.`,
    },
    slowTail: {
      name: 'Walls and oil give off gas',
      evidence: 'The fall slows but goes on.',
      check: 'Warm the compressor as its maker allows, or change the pump’s oil.',
    },
    ballast: {
      name: 'The gas ballast is open',
      evidence: 'The curve flattens where a pump with open ballast does.',
      check: 'Close the ballast: the pressure falls again within a minute.',
    },
    floor: {
      name: 'The pump’s own floor, or a leak that balances the pump',
      evidence: 'The curve flattens to a level and stays there.',
      evidenceAt: ({ level }: { level: string }) =>
        `The curve flattens to a level and stays there: ${level}.`,
      check:
        'Blank the pump off at its inlet. If it stays this high, change its oil; ' +
        'if it goes deep, valve off the system and watch the rise.',
    },
    wetOil: {
      name: 'The pump’s oil is wet',
      evidence: 'The level that the curve has come to still sinks a little.',
      check:
        'Change the pump’s oil while it is warm (it is hot: gloves), or run the pump blanked off with its ballast open.',
    },
    rising: {
      name: 'Something lets the pressure rise',
      evidence: 'It rises where it should fall.',
      check: 'Is the pump running, and every valve towards it open? Then look for a leak.',
    },
    sensor: {
      name: 'The sensor',
      evidence: 'It is beyond its range, or its number does not move at all.',
      check: 'Look for oil in the sensor, and compare with a second one.',
    },
  },
  /** The one check that tells the likely causes of a stall apart, with what each outcome means. */
  tellingCheck: {
    toTellApart: 'To tell them apart:',
    ballast: {
      todo: 'Close the gas ballast, and mark it.',
      outcomes: ['Falls within a minute: that was it.', 'Does not move: one of the others.'],
      caution: '',
    },
    warm: {
      todo: 'Warm the coldest metal for five minutes, pump on.',
      outcomes: [
        'Rises, then falls below where it was: water.',
        'Rises and stays up: walls and oil; go on pumping.',
        'Does not move: pump, oil or leak. Blank the pump off at its inlet next.',
      ],
      caution: 'Warm air or warm cloths, never a flame; crankcase heat only by the maker’s rule.',
    },
    valveOff: {
      todo: 'Valve the system off at the pump for two minutes, the sensor on the system’s side.',
      outcomes: [
        'Rises in a straight line: a leak.',
        'Rises and bends over: moisture, or gas from oil.',
        'Hardly rises: the pump or its oil has come to its own floor. Blank it off and see how deep it goes.',
      ],
      caution: 'Close the valve before the pump stops, or oil is drawn back. Pump and oil are hot.',
    },
  },

  /** What stands under the chart. */
  smallPrint: {
    name: 'What goes with it',
    askView: 'What does the sensor see? No verdict on the system without it.',
  },

  /** The numbers behind a verdict. */
  numbers: {
    summary: 'The numbers behind it',
    intervals: 'Intervals hold the truth nine times of ten.',
    notYet: 'not known yet: too few readings',
    hold: {
      title: 'The hold',
      valvedOff: 'Valved off',
      asMarked: ({ at }: { at: string }) => `${at} into the recording, as marked`,
      asSeen: ({ at }: { at: string }) => `${at} into the recording, as the curve shows`,
      held: 'Held',
      heldOf: ({ held, whole }: { held: string; whole: string }) => `${held} of ${whole}`,
      stoodAtStart: 'Stood at valve-off',
      standsAt: 'Stands at',
      stoodAfter: ({ length }: { length: string }) => `Stood after ${length}`,
      willStandAfter: ({ length }: { length: string }) => `Will stand after ${length}`,
      scatter: 'Scatter of the readings',
      noScatter: 'none to be seen',
      scatterAbout: ({ amount }: { amount: string }) => `about ${amount} from second to second`,
      steps: 'Steps',
      stepUp: ({ size, at }: { size: string; at: string }) => `up ${size} at ${at}`,
      stepDown: ({ size, at }: { size: string; at: string }) => `down ${size} at ${at}`,
      startsAnew: ({ steps }: { steps: string }) => `${steps}: the hold starts anew there`,
      evenedOut: 'Evened out at first',
      upBy: ({ size }: { size: string }) => `up by ${size}`,
      downBy: ({ size }: { size: string }) => `down by ${size}`,
      judgedWith: 'Judged together with',
      earlier: ({ count }: { count: number }) =>
        many(count, { one: 'the hold before it', other: `the ${count} holds before it` }),
    },
    makes: {
      title: 'What makes it rise',
      inflow: 'Steady inflow',
      countsFrom: 'Counts as a leak from',
      moisture: 'From moisture, or gas from oil, by the end of the hold',
      share: 'Moisture’s part of the rise',
      changeover: 'Boil-off gives way to a steady rise',
      noChangeover: 'no such moment',
      after: ({ length }: { length: string }) => `after ${length}`,
      afterForeseen: ({ length }: { length: string }) => `after ${length}, as foreseen`,
      vapour: 'Vapour pressure of water',
      vapourAt: {
        below: ({ pressure, temperature }: { pressure: string; temperature: string }) =>
          `${pressure} at ${temperature}: it stands well below, where water alone can stand`,
        near: ({ pressure, temperature }: { pressure: string; temperature: string }) =>
          `${pressure} at ${temperature}: it stands about there, where water comes to rest`,
        above: ({ pressure, temperature }: { pressure: string; temperature: string }) =>
          `${pressure} at ${temperature}: it stands well above: there is more than water`,
      },
      metalMissing: 'not known: metal’s temperature missing → enter it in the job sheet',
    },
    leak: {
      title: 'Leak rate',
      air: 'Inflow of air',
      volumeMissing: 'not known: volume missing → enter it in the job sheet',
      ofAPart:
        'not of the system: the sensor sees a part of it, with a volume of its own → see Leak hunt',
      inUnit: ({ unit }: { unit: string }) => `In ${unit}`,
      standardCm3PerMin: 'standard cm³/min',
      airGPerYear: 'g of air a year',
      temperatureTaken: ({ temperature }: { temperature: string }) =>
        `${temperature} (taken: nobody entered it)`,
      conditions: ({ temperature, volume }: { temperature: string; volume: string }) =>
        `Air from outside into the vacuum, gas at ${temperature}, volume ${volume} taken as exact. Standard: 0 °C, 101 325 Pa. Under pressure another amount flows.`,
      wouldLose: (loss: { refrigerant: string; pressure: string; least: string; most: string }) =>
        `Through a hole that lets so much air in, ${loss.refrigerant} at ${loss.pressure} bar absolute would lose between ${loss.least} and ${loss.most} a year as vapour.`,
      magnitudeOnly:
        'An order of magnitude, between molecular and laminar flow: a hole changes under pressure, and liquid loses far more. The nitrogen test under pressure decides what is tight.',
    },
    rule: {
      title: 'By the pass rule',
      rule: 'Rule',
      asksFor: 'Asks for',
      gaugeError: 'Gauge’s error',
      eitherWay: ({ percent }: { percent: string }) => `${percent} % of the reading, either way`,
      eitherWayTaken: ({ percent }: { percent: string }) =>
        `${percent} % of the reading, either way (taken: nobody entered it)`,
      source: ({ source }: { source: string }) => `Source: ${source}`,
      letsThroughUnsaid:
        'What leak this rule lets through is not to be said: it names no hold, no limit on it, or the start is above it.',
      letsThrough: ({ inflow, air }: { inflow: string; air: string }) =>
        `This rule passes a steady inflow of up to ${inflow}: ${air} mbar·L/s of air into this volume.`,
      letsThroughWithoutVolume: ({ inflow }: { inflow: string }) =>
        `This rule passes a steady inflow of up to ${inflow}; how much air that is needs the volume.`,
    },
    water: {
      title: 'Water pumped away',
      onPlateau: 'On the plateau',
      noPlateau: 'no plateau of boiling water that has ended',
      noSpeed:
        'not known: the curve before the plateau does not show the pumping speed → enter pump and hose, under Rig',
      noVolume:
        'not known: volume missing → enter it in the job sheet (or pump and hose, under Rig)',
      lessThan: ({ amount }: { amount: string }) => `less than ${amount}`,
      boiled: ({ from, to, pressure }: { from: string; to: string; pressure: string }) =>
        `Water boiled from ${from} to ${to} into the recording, near ${pressure}.`,
      speedFromCurve: ({ boiled }: { boiled: string }) =>
        `${boiled} The pumping speed is from the fall before it and the volume entered; what left before and after it is not counted.`,
      speedFromRig: ({ boiled }: { boiled: string }) =>
        `${boiled} The pumping speed is from pump and hose as entered; what left before and after it is not counted.`,
    },
    holds: {
      title: 'Holds so far',
      hold: ({ number, at }: { number: string; at: string }) => `Hold ${number}, at ${at}`,
      note: 'A leak rises as fast in a repeat hold; what walls and oil give off is less each time.',
      pumpedBefore: ({ length }: { length: string }) => `pumped ${length} before`,
      rose: ({ from, to, length }: { from: string; to: string; length: string }) =>
        `from ${from} to ${to} in ${length}`,
      repeat: 'a repeat hold',
      pumpMayPull: 'the pump may have pulled on',
    },
  },

  passRules: {
    names: {
      own: 'Equipment maker’s sheet, as entered',
      'ufgs-15182': 'UFGS-15182, 3.3.3',
      'ufgs-15741n': 'UFGS-15741N, triple evacuation',
      'au-nz-deep': 'Australia and New Zealand code, 5.4.1, deep evacuation',
      'au-nz-triple': 'Australia and New Zealand code, 5.4.2, triple evacuation',
      'canada-300': 'Canada, Environmental Code of Practice: 300 micron',
      'ashrae-guideline-3': 'ASHRAE Guideline 3',
      'ashrae-15-2': 'ASHRAE 15.2',
      'en-378-2': 'EN 378-2, ISO 5149-2',
    },
    unentered: 'settings of ours, none entered',
    noStandard: 'No standard: the equipment maker’s figures come first.',
    asEntered: 'As entered on the job sheet.',
    secondHand: ({ where }: { where: string }) =>
      `${where}. Restated by others: look it up before it counts.`,
    memory: ({ where }: { where: string }) => `${where}. From memory: look it up before it counts.`,
    broken: ({ pressure }: { pressure: string }) => `${pressure}, broken with nitrogen`,
    downTo: ({ pressure }: { pressure: string }) => `down to ${pressure}`,
    hold: ({ length }: { length: string }) => `hold ${length}`,
    thenAtMost: ({ pressure }: { pressure: string }) => `then at most ${pressure}`,
    risenBy: ({ pressure }: { pressure: string }) => `risen by at most ${pressure}`,
    /** In one or two words, as beside the verdict. */
    outcomes: {
      passes: 'passes',
      fails: 'fails',
      within_gauge_error: 'within the gauge’s error',
      not_held_long_enough: 'not held long enough',
      not_seen: 'not measured',
    },
    outcomesInFull: {
      passes: 'keeps it',
      fails: 'breaks it',
      within_gauge_error: 'within the gauge’s error: it could be either',
      not_held_long_enough: 'not held long enough yet',
      not_seen: 'not measured',
    },
    conditions: {
      final_pressure: ({ limit }: { limit: string }) => `Before the hold at most ${limit}`,
      end_limit: ({ limit }: { limit: string }) => `At its end at most ${limit}`,
      allowed_rise: ({ limit }: { limit: string }) => `Risen by at most ${limit}`,
    },
    evacuationsBefore: ({ count }: { count: number }) =>
      `The ${count} evacuations before it are for you to check: this program judges the last hold.`,
    notColderThan: ({ temperature }: { temperature: string }) =>
      `It holds only where nothing is colder than ${temperature}.`,
  },

  /** Inside the chart, and said of it to those who can't see it. */
  chart: {
    expected: 'expected, dry and tight',
    boilsAt: 'water boils at',
    rehearsal: 'Rehearsal',
    changeover: 'boil-off gives way to a steady rise',
    isolated: 'valve off',
    overTime: ({ stage }: { stage: string }) => `Pressure over time${stage}.`,
    overTimeOf: ({ sensors, stage }: { sensors: string; stage: string }) =>
      `Pressure over time of ${sensors}${stage}.`,
    target: ({ pressure }: { pressure: string }) => `target ${pressure}`,
    valveOffAt: ({ pressure }: { pressure: string }) => `valve off at ${pressure}`,
    headsFor: ({ pressure }: { pressure: string }) => `heads for about ${pressure}`,
    rule: ({ limit, length }: { limit: string; length: string }) =>
      `rule: ${limit} after ${length}`,
    sheet: ({ limit, length }: { limit: string; length: string }) =>
      `sheet: ${limit} after ${length}`,
    steadyRise: ({ rate }: { rate: string }) => `steady rise, ${rate}`,
    levellingOff: 'levelling off',
    holding: 'holding',
    whereItMayGo: 'where it may go',
    /** Its buttons, and what is said of how to use it. */
    tools: {
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
    },
    key: {
      measured: 'measured',
      foreseen: 'forecast, right 8 times of 10',
      fitted: 'fitted, with its 80 % band',
      arrival: 'when it gets there, 8 times of 10',
      typedIn: 'typed in by hand',
    },
    /** Stretches of a curve of which no line tells: beside their signs, and in the key. */
    stretches: {
      gap: 'no readings',
      over_range: 'above the sensor’s range',
      under_range: 'below the sensor’s range',
      warming_up: 'sensor warming up',
      fault: 'sensor fault',
      late: 'came in late',
    },
    table: { clock: 'Clock', pressure: 'Pressure', boils: 'Water boils at' },
    /** What the cursor says: values at a moment. */
    cursor: {
      after: {
        pump_on: ({ time }: { time: string }) => `${time} after pump on`,
        valve_off: ({ time }: { time: string }) => `${time} after valve-off`,
        beginning: ({ time }: { time: string }) => `${time} into the recording`,
      },
      before: {
        pump_on: ({ time }: { time: string }) => `${time} before pump on`,
        valve_off: ({ time }: { time: string }) => `${time} before valve-off`,
        beginning: ({ time }: { time: string }) => `${time} before the recording`,
      },
      /** Above a column of times. */
      counted: {
        pump_on: 'After pump on',
        valve_off: 'After valve-off',
        beginning: 'Into the recording',
      },
      nothing: 'nothing measured',
      ahead: 'still to come',
      boilsAt: ({ temperature }: { temperature: string }) => `water boils at ${temperature}`,
      forecast: ({ low, high }: { low: string; high: string }) =>
        `forecast: between ${low} and ${high}`,
    },
    /** The curve in a sentence or two, for those who can't see it; each ends with a point. */
    curve: {
      rehearsal: 'Rehearsal',
      nothing: 'Nothing measured is in the picture',
      falls: ({ from, to, length }: { from: string; to: string; length: string }) =>
        `The pressure falls from ${from} to ${to} in ${length}`,
      rises: ({ from, to, length }: { from: string; to: string; length: string }) =>
        `The pressure rises from ${from} to ${to} in ${length}`,
      stays: ({ pressure, length }: { pressure: string; length: string }) =>
        `The pressure stays near ${pressure} for ${length}`,
      lowest: ({ pressure, length }: { pressure: string; length: string }) =>
        `with its lowest, ${pressure}, after ${length}`,
      highest: ({ pressure, length }: { pressure: string; length: string }) =>
        `with its highest, ${pressure}, after ${length}`,
      belowTarget: ({ pressure }: { pressure: string }) =>
        `It ends below the target of ${pressure}`,
      aboveTarget: ({ pressure }: { pressure: string }) =>
        `It ends above the target of ${pressure}`,
      belowLimit: ({ pressure }: { pressure: string }) => `It ends below the limit of ${pressure}`,
      aboveLimit: ({ pressure }: { pressure: string }) => `It ends above the limit of ${pressure}`,
      marked: ({ kinds }: { kinds: string }) => `Stretches marked: ${kinds}`,
    },
    /** What stands with a picture that is saved. */
    caption: {
      origins: {
        sensor: 'Job',
        rehearsal: 'Rehearsal on a simulated system, not a job',
        import: 'Imported from a file',
        typed_in: 'Typed in by hand',
      },
      pressureIn: ({ unit }: { unit: string }) => `absolute pressure in ${unit}`,
      stretch: ({ from, to, number }: { from: string; to: string; number: string }) =>
        `${from} to ${to} of recording ${number}`,
    },
  },
  /** Around a printed curve. */
  figure: {
    logarithmic: ({ unit }: { unit: string }) => `${unit}, logarithmic`,
    sinceValveOff: 'since valve-off',
    sinceRecording: 'since the recording began',
    sincePullDown: 'since the pull-down began',
  },

  marks: {
    group: 'Mark what happens now',
    /** On flags. */
    names: {
      pump_on: 'pump on',
      pump_off: 'pump off',
      ballast_opened: 'ballast opened',
      ballast_closed: 'ballast closed',
      isolated: 'valve off',
      reopened: 'valve open again',
      nitrogen_break: 'nitrogen break',
      cores_out: 'cores out',
      oil_changed: 'oil changed',
      battery_changed: 'battery changed',
      joints_tightened: 'joints tightened',
      sections_shut: 'inner valves shut',
      sections_opened: 'inner valves opened',
      job_begun: 'new job',
      cores_in: 'cores back in',
      sensor_isolated: 'sensor shut off',
      charge_released: 'charge released',
      stub_shut: 'sensor alone on its stub',
      stub_opened: 'sensor on the system again',
      part_seen: 'sensor sees another part',
      note: 'note',
    },
    /** On buttons: what has just been done. */
    buttons: {
      pump_on: 'Pump on',
      pump_off: 'Pump off',
      ballast_opened: 'Ballast opened',
      ballast_closed: 'Ballast closed',
      isolated: 'Valved off',
      reopened: 'Valve open again',
      nitrogen_break: 'Nitrogen break',
      cores_out: 'Cores taken out',
      oil_changed: 'Oil changed',
      battery_changed: 'Battery changed',
      joints_tightened: 'Joints tightened',
      sections_shut: 'Inner valves shut',
      sections_opened: 'Inner valves opened',
      job_begun: 'New job',
      cores_in: 'Cores back in',
      sensor_isolated: 'Closing up: sensor off',
      charge_released: 'Charge released',
      stub_shut: 'Sensor shut off on its stub',
      stub_opened: 'Stub opened again',
      part_seen: 'Another part isolated',
      note: 'Note…',
    },
    /** As buttons in a rehearsal, where pressing does it. */
    does: {
      nitrogen_break: 'Break with nitrogen',
      cores_out: 'Take the cores out',
      oil_changed: 'Change the pump’s oil',
      battery_changed: 'Change the pump’s battery',
      joints_tightened: 'Tighten the joints',
      sections_shut: 'Shut the inner valves',
      sections_opened: 'Open the inner valves',
      stub_shut: 'Shut the sensor off on its stub',
      stub_opened: 'Open the stub again',
    },
    toDo: 'More to do',
    toMark: 'More to mark',
    toDoButton: 'More to do…',
    toMarkButton: 'More to mark…',
    doHelp: 'Done to the simulated rig at once, and marked on the curve.',
    markHelp: 'Mark what has just been done.',
    changesNothing: ({ why }: { why: string }) => `That changes nothing: ${why}. No mark was made.`,
    unchanged: {
      pump_on: 'the pump is on already',
      pump_off: 'the pump is off already',
      ballast_open: 'the gas ballast is open already',
      ballast_close: 'the gas ballast is closed already',
      isolate: 'the valve is closed already',
      reopen: 'the valve is open already',
      take_cores_out: 'there is no core left in',
      change_oil: 'the pump’s oil is as good as new',
      change_battery: 'this pump has no battery, or a full one',
      tighten_joints: 'the joints have been tightened already',
      break_with_nitrogen: 'it stands under nitrogen already',
      shut_sections: 'the inner valves are shut already, or this rig has none',
      open_sections: 'the inner valves are open already, or this rig has none',
      shut_stub: 'the sensor is shut off already, or has no valve of its own',
      open_stub: 'the sensor is open to the system already, or has no valve of its own',
    },
    /** In a line, beside the button that does it or marks it. */
    cautions: {
      nitrogen_break:
        'Dry nitrogen through a regulator, with a relief device; never oxygen or air. Ventilate. Valve the sensor off first if it is not rated for it.',
      cores_out: 'With a core tool. Never open it to the air while the system is under vacuum.',
      oil_changed: 'Valve off and stop the pump first. Pump and oil are hot.',
      battery_changed: 'Valve off first: oil is drawn back otherwise.',
      joints_tightened: 'Two wrenches, and torque by the maker’s table. Gloves and eye protection.',
      sections_shut:
        'From then on the sensor sees only what is left open: no verdict on what is shut off. Never shut in liquid refrigerant.',
      sections_opened:
        'Where a valve needs power to open, use the maker’s own vacuum or service mode only. Never into a part that is still charged.',
      cores_in: 'Through the closed core tool, under vacuum.',
      sensor_isolated:
        'Before the charge reaches it. What it shows from then on says nothing of the system.',
      charge_released:
        'Press just before the valves are opened: the jump is then the charge’s own.',
      stub_shut: 'The curve shows hose and sensor joint alone from then on, not the system.',
      stub_opened: 'Never onto a system under pressure: that destroys the sensor.',
    },
    noteTitle: 'Note',
    noteText: 'What happened',
    putOnCurve: 'Put it on the curve',
  },

  /** The day's work along the bottom, and its cautions. */
  work: {
    name: 'The day’s work',
    places: {
      nitrogen: 'Nitrogen test',
      hook_up: 'Hook-up',
      pull_down: 'Pull-down',
      rise: 'Rise',
      closing_up: 'Closing up',
    },
    since: ({ since }: { since: string }) => `since ${since}`,
    lasting: ({ length }: { length: string }) => `for ${length}`,
    holdOf: ({ length }: { length: string }) => `hold of ${length}`,
    states: { before: 'to come', now: 'now', done: 'before this' },
    report: 'Report',
    asPdf: 'as PDF',
    cautions: {
      nitrogen: [
        'Nitrogen only through a regulator and with a relief device, never above the maker’s test pressure. Never oxygen or air.',
        'Vent before the vacuum sensor is opened to the system: test pressure destroys it.',
        'Nitrogen displaces oxygen in closed rooms: ventilate.',
        'Eye protection and gloves.',
      ],
      hook_up: [
        'Recover refrigerant, never vent it; licensed people only.',
        'Flammable refrigerant: recover and purge with nitrogen first, ventilate, exhaust outdoors, use a pump rated for it and switch it outside the zone. Laptop and sensor are ignition sources too.',
        'Lock out the outdoor unit’s power. Where expansion valves need power to open, use the maker’s own vacuum or service mode only.',
        'Put the sensor on the system’s side, as far from the pump as the piping allows.',
      ],
      pull_down: [
        'Never run a compressor under vacuum, nor test its windings with high voltage there.',
        'Pump and oil are hot; oil mist goes outdoors.',
        'Valve off before the pump stops, or before its battery is changed: oil is drawn back otherwise.',
        'Crankcase heat only by the maker’s rule.',
      ],
      rise: [
        'Never open the core tool to the air while the system is under vacuum.',
        'A vacuum hold finds gross leaks; the nitrogen test decides tightness.',
      ],
      closing_up: [
        'Put the cores back without losing the vacuum; close the tool before anything is taken off.',
        'Valve off the sensor before the charge reaches it.',
        'Open the valves in the equipment maker’s order, refrigerant to positive pressure, and only then power.',
        'The compressor is never started in a vacuum.',
      ],
    },
    whoDecides:
      'This program advises. The equipment maker’s instructions, local codes and the licensed person on site decide.',
  },

  /** What is called out, and the list of it. */
  alerts: {
    title: 'Alerts',
    seen: 'Seen',
    allSeen: 'All seen',
    none: 'Nothing has been called out in this recording.',
    reach: 'How they reach you…',
    inDoubt: ({ title }: { title: string }) => `${title}, now in doubt`,
    unheard: 'Not heard: the browser waits for a first touch.',
    andBefore: ({ count }: { count: number }) => `And ${count} before`,
    calledAt: ({ moment, clock }: { moment: string; clock: string }) => `${moment}, at ${clock}`,
    early: 'before this page was opened',
    /** Of another recording than the one that is shown. */
    ofAnother: ({ recording }: { recording: string }) => `In another recording: ${recording}.`,
    states: {
      open: 'not seen yet',
      seen: 'seen',
      replaced: 'a newer one took its place',
      over: 'no longer so',
    },
    seenAt: ({ at }: { at: string }) => `seen at ${at}`,
    /** Beside the title's sign, so that neither colour nor shape has to say it alone. */
    tones: { good: 'Good', act: 'Do now', warning: 'Warning' },
    intoRecording: ({ at }: { at: string }) => `${at} into the recording`,
    intoRehearsal: ({ at }: { at: string }) => `${at} into the rehearsal`,
    target: ({ target }: { target: string }) => `${target} reached`,
    targetHow: ({ target, place }: { target: string; place: string }) =>
      `The pressure went below ${target} and stayed there, ${place}.`,
    depth: ({ depth }: { depth: string }) => `Valve off: ${depth} held`,
    depthHow: ({ place }: { place: string }) =>
      `Close the valve first, then stop the pump. Held since ${place}.`,
    levelsOff: ({ target }: { target: string }) => `Levelling off above ${target}`,
    levelsOffHow: ({ place }: { place: string }) =>
      `It stays if nothing is changed, since ${place}. The likely causes stand below.`,
    levelsOffNear: ({ floor, place }: { floor: string; place: string }) =>
      `It stays near ${floor} if nothing is changed, since ${place}. The likely causes stand below.`,
    ballast: 'Close the gas ballast',
    ballastHow: ({ place }: { place: string }) =>
      `It still stands open, ${place}; the pump goes deeper without it.`,
    pumpBattery: 'The pump’s battery won’t last',
    pumpBatteryLeft: ({ left }: { left: string }) =>
      `It is about ${left} left. Valve off before it stops, then change it.`,
    pumpBatteryEmpty: 'It is as good as empty. Valve off before it stops, then change it.',
    pumpBatteryNeeds: ({ left, needs }: { left: string; needs: string }) =>
      `It has about ${left} left, the depth takes about ${needs} more. Valve off before you change it.`,
    pumpBatteryEmptyNeeds: ({ needs }: { needs: string }) =>
      `It is as good as empty, the depth takes about ${needs} more. Valve off before you change it.`,
    /** What can be read from afar in a line; the whole name stands below it. */
    verdicts: {
      tight_dry: 'tight and dry',
      moisture: 'moisture',
      leak: 'leak',
      leak_and_moisture: 'leak and moisture',
      undecided: 'undecided',
    },
    verdict: ({ verdict }: { verdict: string }) => `Verdict: ${verdict}`,
    drawn: ({ verdict, place }: { verdict: string; place: string }) =>
      `${verdict}. Drawn ${place}.`,
    withdrawn: 'Verdict withdrawn: undecided',
    verdictNow: ({ verdict }: { verdict: string }) => `Verdict now: ${verdict}`,
    since: ({ place }: { place: string }) => `Since ${place}.`,
    sinceNotTight: ({ place }: { place: string }) =>
      `Since ${place}. It was tight and dry: do not close up on it.`,
    sinceBefore: ({ place, before }: { place: string; before: string }) =>
      `Since ${place}. Before: ${before}.`,
    vacuumLost: 'The vacuum is being lost',
    vacuumLostTo: ({ from, to, place }: { from: string; to: string; place: string }) =>
      `From ${from} to ${to}, ${place}. Do not rely on the pass: shut what was last opened. If the sensor is off the system already, only its hose fills.`,
    vacuumLostBeyond: ({ from, place }: { from: string; place: string }) =>
      `From ${from} beyond the sensor’s range, ${place}. Do not rely on the pass: shut what was last opened. If the sensor is off the system already, only its hose fills.`,
    theSensor: 'The sensor',
    sensorBattery: ({ percent }: { percent: string }) => `Sensor’s battery at ${percent}`,
    sensorBatteryHow: ({ sensor }: { sensor: string }) =>
      `${sensor} may fall silent before the hold is over. Charge or change it now.`,
    sensorLost: ({ sensor }: { sensor: string }) => `${sensor} is silent`,
    sensorLostHow: ({ place }: { place: string }) =>
      `Last heard ${place}. Nothing is watched until it is back: bring this screen nearer.`,
    sensorBack: ({ sensor }: { sensor: string }) => `${sensor} is heard again`,
    bridgeLost: 'This screen hears nothing',
    bridgeLostHow: ({ place }: { place: string }) =>
      `The bridge does not answer, since ${place}. If that lasts, start it with: npm start.`,
    bridgeBack: 'The bridge answers again',
    bridgeBackHow: ({ place }: { place: string }) =>
      `Since ${place}. What was recorded meanwhile is here.`,
    deviceBattery: ({ percent }: { percent: string }) => `This screen’s battery at ${percent}`,
    deviceBatteryHow: 'Plug it in: once it is off, it calls nobody.',
  },
  /** How alerts reach somebody. */
  reach: {
    title: 'How alerts reach you',
    help: 'The page shows an alert, and so do its title and icon. Beyond that:',
    sound: 'Sound',
    sounds: {
      off: 'none',
      bell_buoy: 'Bell buoy',
      call_pipe: 'Call pipe',
      rivet_hammer: 'Rivet hammer',
      two_terns: 'Two terns',
    },
    volume: 'How loud',
    repeat: 'Call',
    repeats: { once: 'once', until_seen: 'every 15 s until seen' },
    check: 'Check the sound',
    heard: 'Did that reach where you will stand?',
    yes: 'Yes, clearly',
    no: 'No',
    fine: 'Then it calls you like that.',
    louder:
      'Make it louder here and on the computer itself, try another sound, or put a speaker out of the van. Calling until seen helps too.',
    vibrate: 'Vibrate, on a phone that can',
    speak: 'Say it aloud as well',
    trySpeech: 'Say something',
    speechSample: { title: 'Speech is on', detail: 'Alerts are read out like this.' },
    ask: 'Allow system notifications',
    permissions: {
      default: 'Not asked yet.',
      granted: 'Allowed.',
      denied: 'Refused: change it in the browser’s settings for this address.',
      none: 'This browser has none.',
    },
    blocked: 'No alert can be heard yet: the browser wants this page touched once.',
    unblock: 'Let it sound',
    noSound: 'This browser makes no sound.',
  },

  menu: {
    title: 'Menu',
    entries: {
      rehearse: { title: 'Rehearse', text: 'A simulated job, at any speed, cause hidden.' },
      'type-in': {
        title: 'Type in readings',
        text: 'For a gauge without a radio: each number becomes a reading.',
      },
      recordings: {
        title: 'Jobs',
        text: 'Search them, open one with its curve, compare two, report, sign, put away.',
      },
      'new-job': {
        title: 'Another job begins',
        text: 'The next system, from now on or from when its pump was switched on.',
      },
      sign: { title: 'Sign off', text: 'Who answers for this job, with a remark for its report.' },
      steps: { title: 'Steps', text: 'What is done, what is now, what is to come; closing up.' },
      prepared: {
        title: 'Prepared job sheets',
        text: 'Fill one in before anything is recorded; from an earlier job if you like.',
      },
      sheet: { title: 'Job sheet', text: 'Site, target, hold, pass rule, what the sensor sees.' },
      rig: { title: 'Rig', text: 'Pump, hoses and cores, and how fast they should pull down.' },
      nitrogen: {
        title: 'Nitrogen test',
        text: 'Pressure and temperature at the start and now: does it hold?',
      },
      cycles: {
        title: 'Nitrogen breaks',
        text: 'Several evacuations with nitrogen between: where one is, and what they have done.',
      },
      hunt: {
        title: 'Leak hunt',
        text: 'Sensor alone, then section by section: where the leak is.',
      },
      volume: {
        title: 'Volume: lines, coils, valves',
        text: 'What the system holds, its sections, and which of them are connected.',
      },
      'pump-check': {
        title: 'Pump check',
        text: 'The sensor on the pump alone: pump, oil and hose in order, or not.',
      },
      sensors: {
        title: 'Sensors: names and places',
        text: 'A name of your own for each, and where it sits.',
      },
      'second-screen': {
        title: 'Second screen',
        text: 'The same in another window, or on a phone that is let in by a code.',
      },
      alerts: {
        title: 'Alerts',
        text: 'What was called out in this recording, and who has seen it.',
      },
      'alert-reach': {
        title: 'How alerts reach you',
        text: 'Sound, and how loud; vibration, speech, notifications.',
      },
      settings: {
        title: 'Language, units and look',
        text: 'What pressures are shown in; day, night or full sun; the paper of reports.',
      },
    },
  },

  /** The same on another screen. */
  secondScreen: {
    title: 'Second screen',
    same: 'Every screen shows the same, and what is marked on one is marked on all.',
    code: 'QR code of the address',
    copy: 'Copy the address',
    open: 'Open a second window',
    done: 'Copied.',
    refused: 'The browser would not copy it. Select the address and copy it by hand.',
    thisMachine:
      'The page is not shared: this address opens on this computer alone, in a second window say. To let phones and tablets in, stop the bridge and start it with: npm start -- --share',
    looksOnly: 'On this screen this is only to look at.',
    sharing: {
      title: 'Let a screen in',
      network: 'In which network the other screen is',
      noNetwork:
        'The page is shared, but this computer is in no local network. Join one, or let the phone open one; it is looked for every ten seconds.',
      roleAsked: 'What the other screen may do',
      roles: { watch: 'Watch', assist: 'Assist', owner: 'All' },
      roleMeans: {
        watch: 'It sees every job in the record, and changes nothing.',
        assist:
          'It sees every job in the record, sets marks, enters on the job sheet, types in readings and puts alerts away. It deletes nothing, signs nothing, and begins and ends no recording.',
      },
      show: 'Show a code',
      scan: 'Point the other screen’s camera at the code; or open this address there, and type the code below.',
      typed: 'Code for typing',
      goodFor: ({ time }: { time: string }) => `For one screen, until ${time}.`,
      paired: ({ name }: { name: string }) => `“${name}” is let in.`,
      warning:
        'The browser there will warn of the certificate, since no authority vouches for one that this computer made for itself. Have it show the certificate before you go on. Its fingerprint has to be the one below; if it is another, somebody stands in between: don’t go on.',
      fingerprint: 'Fingerprint of the certificate (SHA-256)',
      cost: 'Whoever refuses the certificate can’t open the page at all. Whoever goes on past the warning can use it, but most browsers then give no notifications, keep no page for when there is no network, and may let the screen go dark: keep the laptop within earshot.',
      screens: 'Screens that are let in',
      none: 'None.',
      here: 'is here now',
      lastSeen: ({ time }: { time: string }) => `was here last: ${time}`,
      unpair: 'Shut out',
      pairedAs: {
        watch: 'is let in to watch: it sees every job in the record, and changes nothing.',
        assist:
          'is let in to assist: it sets marks, enters on the job sheet, types in readings and puts alerts away. All else is done on the laptop.',
        owner: 'is the laptop itself.',
      },
      leave: 'Let this screen in no longer',
    },
    pairing: {
      title: 'Let this screen in',
      whereCode:
        'Type the code that the laptop shows: Menu, Second screen, Show a code. Better still, point this screen’s camera at it.',
      scanned: 'The code was read. It is good once, and for a few minutes.',
      code: 'Code',
      name: 'What this screen is called on the laptop',
      names: { phone: 'Phone', other: 'Tablet' },
      go: 'Let it in',
      compare:
        'If the browser has warned of the certificate: compare its fingerprint with the one on the laptop before you go on. If they differ, somebody stands in between.',
      cost: 'A browser that was told to go on past its warning mostly gives no notifications, keeps no page for when there is no network, and may let the screen go dark.',
    },
  },

  settings: {
    language: 'Language',
    languageOfSystem: 'as the system',
    pressureIn: 'Pressure in',
    temperatureIn: 'Temperature in',
    look: 'Look',
    looks: { system: 'as the system', day: 'day', night: 'night', sun: 'full sun' },
    paper: 'Paper of reports',
    papers: { system: 'as is usual here', A4: 'A4', Letter: 'Letter' },
  },

  /** Choosing a rehearsal, and working it. */
  rehearse: {
    title: 'Rehearse',
    help: 'A simulated job with a hidden cause: work it, make the call, then see what told.',
    trainee: 'Who rehearses',
    hands: 'Pump and valves',
    byHelper: 'A helper works them',
    byHand: 'My own hands',
    speed: 'Speed',
    asInLife: 'as in life',
    drawn: 'A new one each time',
    difficulty: 'Difficulty',
    difficulties: { plain: 'Plain', mixed: 'Mixed', hard: 'Hard' },
    seed: 'Job number',
    seedWhy: 'The same number gives the same job again.',
    seedWrong: 'Job number: a whole number from 0 to 4294967295.',
    anotherSeed: 'Another number',
    jobs: 'Jobs on offer',
    start: 'Start',
    called: 'called before',
    results: 'Calls so far',
    asking: 'Asking the bridge…',
    numbered: ({ job, number }: { job: string; number: string }) => `${job}, number ${number}`,
    titleOf: ({ job }: { job: string }) => `Rehearsal: ${job}`,
    /** By the name of the scenario, as its card says it. Streets have invented names: they stay. */
    places: {
      'bridge-end-pharmacy': 'Pharmacy at Bridge End, store room',
      'chapel-hill-surgery': 'Surgery on Chapel Hill, treatment room',
      'copper-row-workshop': 'Workshop in Copper Row, office',
      'fern-court-laundry': 'Laundry at Fern Court, pressing room',
      'guildhall-annex': 'Annex of the guildhall, two upper floors',
      'harbour-lane-bookshop': 'Bookshop in Harbour Lane, upper floor',
      'lantern-court-library': 'Library in Lantern Court, periodicals room',
      'lindens-dental-practice': 'Dental practice at The Lindens, waiting room',
      'meadow-view-nursery': 'Nursery school Meadow View, group room',
      'mill-street-barber': 'Barber in Mill Street, back room',
      'north-quay-boathouse': 'Boathouse at North Quay, club room',
      'observatory-lane-office': 'Office in Observatory Lane, meeting room',
      'orchard-close-flat': 'Flat in Orchard Close, bedroom',
      'priory-street-gymnasium': 'Gymnasium in Priory Street, changing rooms',
      'quarry-road-bakery': 'Bakery in Quarry Road, sales room',
      'ropewalk-print-shop': 'Print shop at the Ropewalk, press hall',
      'saddlers-yard-cafe': 'Café in Saddler’s Yard, gallery',
      'station-road-florist': 'Florist in Station Road, shop',
      'summit-road-refuge': 'Mountain refuge on Summit Road, 2400 m, dining room',
      'tannery-lane-studio': 'Studio in Tannery Lane, behind the courtyard',
      'tollgate-cottage': 'Cottage at the old tollgate, kitchen',
      'vineyard-pavilion': 'Pavilion above the vineyard, tasting room',
      'weir-street-archive': 'Town archive in Weir Street, reading room',
    },
    /** A job that is drawn by its number has no place that would be known by. */
    drawnJobs: { plain: 'A plain job', mixed: 'A mixed job', hard: 'A hard job' },
    bar: {
      label: 'Rehearsal',
      name: 'Rehearsal, not a job',
      pause: 'Pause',
      goOn: 'Go on',
      again: 'Begin again',
      stop: 'Stop',
      ended: 'It has ended.',
      call: { long: 'I know what it is', short: 'I know' },
      reveal: 'Reveal it',
      whatTold: 'What told, and how it went',
      another: 'Another one',
      /** A helper does something next; where nobody does, time alone goes on. */
      nextEvent: { long: 'On to the next event', short: 'Next event' },
      tenMinutes: { long: 'Ten minutes on', short: '10 min on' },
    },
    /** Asked before it ends: a glove slips. */
    ends: {
      stop: {
        title: 'Stop the rehearsal?',
        what: 'It can’t go on afterwards. Its curve stays among the recordings, and can still be called.',
        now: 'Stop it',
      },
      again: {
        title: 'Begin it again?',
        what: 'The same job begins anew, and this run ends. Its curve stays among the recordings.',
        now: 'Begin it again',
      },
    },
  },
  call: {
    title: 'What is it?',
    help: 'One call, before the reveal. The rehearsal goes on meanwhile; pause it if you like.',
    causes: 'The cause',
    sure: 'How sure are you that this is it?',
    percent: 'per cent',
    percentOf: ({ percent }: { percent: string }) => `${percent} per cent`,
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
    called: ({ cause, percent }: { cause: string; percent: string }) => `${cause}, ${percent} sure`,
  },
  /** What a trainee can say was the matter: what it is, and not how the curve tells it. */
  rehearsalCauses: {
    in_order: {
      name: 'In order',
      means: 'Tight and dry, and nothing wrong with pump, hose or sensor.',
    },
    moisture: { name: 'Moisture', means: 'Water or ice in the system, and no leak.' },
    leak: { name: 'Leak', means: 'The system lets air in, and is dry.' },
    leak_and_moisture: {
      name: 'Leak and moisture',
      means: 'The system lets air in, and there is water in it too.',
    },
    gear_leak: {
      name: 'Leak in the gear',
      means: 'Hose, core tool or the sensor’s joint lets air in; the system is tight.',
    },
    charged_side: {
      name: 'Refrigerant past a valve',
      means: 'A shut valve lets some through from a part that is charged.',
    },
    refrigerant: {
      name: 'Refrigerant in the oil',
      means: 'The compressor’s oil gives off what it had dissolved.',
    },
    pump_or_oil: { name: 'Pump or its oil', means: 'The pump by itself does not go deep enough.' },
    ballast_open: {
      name: 'Gas ballast open',
      means: 'The pump lets air into itself all the time.',
    },
    narrow_way: {
      name: 'Narrow way to the pump',
      means: 'Cores left in, or a long or thin hose: the pump’s speed does not come through.',
    },
    sensor_place: {
      name: 'Sensor in the wrong place',
      means: 'It does not see the system, but the pump’s end of the hose.',
    },
    part_shut_off: {
      name: 'A part shut off',
      means: 'A shut valve keeps a part, or what is in its bore, from the pump.',
    },
    battery: { name: 'Pump’s battery', means: 'It ran out in the middle of the work.' },
    radio: { name: 'Radio', means: 'Readings did not arrive; the system is in order.' },
  },
  /** What a rehearsal really was, beside what was called. */
  reveal: {
    title: 'What it was',
    tells: 'What told',
    curve: 'The whole curve, with the moment from which it told.',
    told: 'it told from here',
    called: 'your call',
    work: 'How it went',
    numbers: 'The numbers',
    job: 'Job',
    again: 'The same job again',
    helped: 'The helper worked pump and valves: of the work there is nothing to say.',
    itWas: ({ cause }: { cause: string }) => `It was: ${cause}.`,
    right: ({ cause }: { cause: string }) => `Right: ${cause}.`,
    notSo: ({ cause }: { cause: string }) => `Not so. It was: ${cause}.`,
    yourCall: ({ call }: { call: string }) => `Your call: ${call}.`,
    differedFrom: ({ at }: { at: string }) =>
      `From ${at} on the curve differed from that of the same job in order.`,
    neverInOrder: 'That nothing is wrong is told by a full hold alone.',
    neverRadio: 'Missing readings told, and nothing in the curve.',
    neverDiffered: 'As it was worked, the curve never differed from that of the same job in order.',
    callCame: ({ told, at }: { told: string; at: string }) => `${told} Your call came at ${at}.`,
    callBefore: ({ told, length }: { told: string; length: string }) =>
      `${told} Your call came ${length} before that: a guess.`,
    callAfter: ({ told, length, at }: { told: string; length: string; at: string }) =>
      `${told} Your call came ${length} later, at ${at}.`,
    inflow: 'Steady inflow once valved off',
    water: 'Water at the start',
    ballast: 'Gas ballast at the start',
    none: 'none',
    open: 'open',
    closed: 'closed',
  },
  /** What a debrief found. */
  debrief: {
    grades: { well: 'Well done', early: 'Too early', late: 'Too late', missed: 'Missed' },
    /** A sentence without its end, and figures that bear it out. */
    withFigures: ({ sentence, figures }: { sentence: string; figures: string }) =>
      `${sentence} (${figures}).`,
    findings: {
      right_call: 'The call named the cause.',
      half_right_call:
        'The call was half of it: leak and moisture are told apart by the whole hold.',
      wrong_call: 'The call named another cause.',
      sure_and_wrong: 'The call named another cause, and was sure of it.',
      no_call: 'No call was made.',
      called_before_it_told: 'Called before the curve could tell: a guess, right or wrong.',
      called_in_time: 'Called once the curve had told, and without waiting long.',
      called_long_after: 'Called long after there was nothing more to learn.',
      never_pumped: 'The pump was never started.',
      ballast_closed_in_time: 'Gas ballast closed in time.',
      ballast_closed_too_early: 'Gas ballast closed while the pump still needed it.',
      ballast_closed_late: 'Gas ballast closed long after its work was done.',
      ballast_left_open: 'Gas ballast left open: with it the pump comes to no depth.',
      isolated_at_depth: 'Valved off at the depth.',
      isolated_where_it_levelled_off:
        'Valved off where it had levelled off: there the hold tells more than pumping on.',
      isolated_above_depth: 'Valved off above the depth, while it was still falling.',
      valved_off_at_the_limit:
        'Valved off at or above the limit that the hold has to keep: it could only fail.',
      valved_off_before_pump_stopped: 'Valved off before the pump was stopped.',
      pump_stopped_before_valve_off: 'Pump stopped with the valve open: oil is drawn back so.',
      never_held: 'There was no hold. Without one nobody can say tight.',
      hold_long_enough: 'The hold ran its full length.',
      hold_failed_before_its_end:
        'The hold was over its limit: the rest of it would have added nothing.',
      hold_too_short: 'The hold ended before its time.',
      cure_tried: 'This goes to the cause, or to its place.',
      other_cure_tried: 'This does nothing about this cause.',
    },
    cureTried: ({ cure }: { cure: string }) => `${cure} goes to the cause, or to its place.`,
    otherCureTried: ({ cure }: { cure: string }) => `${cure} does nothing about this cause.`,
    cures: {
      nitrogen_break: 'A nitrogen break',
      cores_out: 'Taking the cores out',
      oil_changed: 'Changing the oil',
      battery_changed: 'Changing the battery',
      joints_tightened: 'Tightening the joints',
      sections_shut: 'Shutting the inner valves',
      sections_opened: 'Opening the inner valves',
      stub_shut: 'Shutting the sensor off on its stub',
    },
  },
  /** Calls and truths of the rehearsals so far, and what they say of a trainee. */
  score: {
    title: 'Calls so far',
    trainee: 'Whose',
    none: 'Nobody has made a call yet. It counts once it has been followed by the reveal.',
    right: 'Right',
    wrong: 'Not so',
    open: 'Open',
    brierName: 'Brier score',
    rightName: 'Right',
    sureName: 'Sure, on average',
    called: ({ call }: { call: string }) => `Called: ${call}.`,
    calledButWas: ({ call, cause }: { call: string; cause: string }) =>
      `Called: ${call}. It was: ${cause}.`,
    tooFew: ({ needed, count }: { needed: string; count: number }) =>
      `A score takes ${needed} calls; so far there ${many(count, { one: `is ${count}`, other: `are ${count}` })}.`,
    of: ({ share, count }: { share: string; count: string }) => `${share} of ${count}`,
    inTheLongRun: ({ low, high }: { low: string; high: string }) =>
      `in the long run between ${low} and ${high}`,
    brierMeans: (score: { low: string; high: string; half: string; fifty: string }) =>
      `between ${score.low} and ${score.high}; 0 is best, ${score.half} is what ${score.fifty} sure each time comes to`,
    tooSure: 'surer than the calls bear out',
    notSureEnough: 'less sure than the calls would allow',
    fits: 'no different from being right, as far as so few calls can tell',
  },

  recordings: {
    title: 'Jobs',
    open: 'Open',
    report: 'Report',
    reportAsPdf: 'Report as PDF',
    readInFile: 'Read in a file',
    readInHelp:
      'A file with a column of times and one of pressures becomes a recording of its own, marked as ' +
      'imported. You see how it is read before anything is kept; the same file again makes another one. ' +
      'Files that were exported here, and backups, are taken in at once.',
    takingIn: 'Reading it in…',
    csv: 'CSV',
    csvOf: ({ number }: { number: string }) => `CSV ${number}`,
    json: 'JSON',
    fullCsv: 'Full CSV',
    fullCsvHelp: 'All that each reading has, and the marks: for spreadsheets',
    jsonHelp: 'The whole job with every fact of it: to keep, or to read in elsewhere',
    backUp: 'Back up everything',
    backUpHelp:
      'One file with all recordings, also while one is running. Read in here or on another computer it brings ' +
      'back what is missing there.',
    restored: {
      added: ({ count }: { count: number }) =>
        many(count, {
          one: `${count} recording was restored.`,
          other: `${count} recordings were restored.`,
        }),
      already: ({ count }: { count: number }) =>
        many(count, { one: `${count} is here already.`, other: `${count} are here already.` }),
      altered: ({ count }: { count: number }) =>
        many(count, {
          one: `The hashes of ${count} do not hold: its facts were altered before.`,
          other: `The hashes of ${count} do not hold: their facts were altered before.`,
        }),
      refused: ({ number, why }: { number: string; why: string }) =>
        `Recording ${number} of the file was not restored: ${why}.`,
    },
    job: 'Job',
    jobTypedIn: 'Job, typed in by hand',
    imported: ({ title }: { title: string }) => `Imported: ${title}`,
    readInAt: ({ at }: { at: string }) => `read in ${at}`,
    recordingSince: ({ at }: { at: string }) => `recording since ${at}`,
    recordedAt: ({ at }: { at: string }) => `recorded ${at}`,
    running: ({ at }: { at: string }) => `${at}, running`,
    /** In the header, in place of what a sensor is doing. */
    importedFile: ({ title }: { title: string }) => `${title}, imported`,
    typedIn: 'typed in',
    lastAt: ({ at }: { at: string }) => `last at ${at}`,
    overImport:
      'This was read in from a file. The next reading of a sensor starts a recording by itself.',
    over: 'This recording has ended. The next reading starts a new one by itself.',
  },

  /** The list of jobs, and what can be said of one. */
  jobs: {
    search: 'Site, equipment, sensor, name or day',
    verdict: 'Verdict',
    anyVerdict: 'Any',
    noHold: 'no hold',
    where: 'Where',
    places: { no: 'Current', yes: 'Archive', all: 'Both' },
    none: 'No job found.',
    nothingYet: 'Nothing has been recorded yet.',
    found: ({ count }: { count: number }) => (count === 1 ? '1 job' : `${count} jobs`),
    stillJudging: ({ count }: { count: number }) =>
      `${count} more are still being judged, and are not found by their verdict.`,
    further: 'Show earlier ones',
    running: 'running',
    notJudged: 'not judged yet',
    soFar: ({ outcome }: { outcome: string }) => `${outcome}, so far`,
    rehearsal: 'rehearsal',
    signedBy: ({ name }: { name: string }) => `signed by ${name}`,
    archived: 'archived',
    more: 'More',
    layBehind: 'Compare: draw it behind',
    archive: 'Archive',
    takeOut: 'Take out of the archive',
    putAway: ({ place }: { place: string }) => `In the archive now: ${place}.`,
    takenOut: ({ place }: { place: string }) => `Out of the archive again: ${place}.`,
    deleted: 'The job is deleted for good.',
    deleteForGood: 'Delete for good',
    deleteAsk:
      'Its readings, marks and entries will be overwritten. What stays says that something was deleted, and when. Copies of the record keep it.',
    deleteAskAgain: 'There is no way back. Delete this job for good?',
    goOn: 'Go on',
    reallyDelete: 'Yes, delete it for good',
    keepIt: 'Keep it',
  },
  laidBehind: {
    title: ({ job }: { job: string }) => `Behind it: ${job}`,
    from: 'Laid from',
    aligned: { pump_on: 'pump on', valve_off: 'valve off' },
    takeAway: 'Take it away',
    nothing: 'That job has no such moment, or this one has none yet.',
    onCurve: 'the other job',
  },
  newJob: {
    title: 'Another job begins',
    help: 'The recording goes on; what is shown, judged and reported from here is the new job alone. The job before keeps all that was its own.',
    begins: 'It begins',
    choices: {
      pump_on: ({ at }: { at: string }) => `when the pump was switched on, ${at}`,
      silence: ({ at }: { at: string }) => `when readings came again, ${at}`,
      last: ({ at }: { at: string }) => `at its last reading, ${at}`,
      now: ({ at }: { at: string }) => `now, ${at}`,
    },
    begin: 'Begin the job',
    begun: ({ at }: { at: string }) => `This job begins ${at}.`,
    join: 'Join it with the job before',
    reallyJoin: 'Yes, make one job of the two',
    joinHelp:
      'Both become one job again: readings, verdict and report. Of what was entered twice, the site for one, the later entry holds.',
    carried: ({ what }: { what: string }) =>
      `Carried along from the job before: ${what}. Site, target, limits and pass rule are not.`,
    nothingCarried:
      'Nothing is carried along from the job before: site, target, limits and pass rule are entered anew.',
  },
  signOff: {
    title: 'Sign off',
    help: 'For the report. It says who answers for the work; the program checks nobody’s name or licence.',
    name: 'Name',
    licence: 'Licence number, where one is asked for',
    remark: 'Remark',
    changed:
      'Another job has begun meanwhile. Close this, look at the job that you mean, and sign it.',
    sign: 'Sign off',
    signed: ({ name, at }: { name: string; at: string }) => `Signed by ${name}, ${at}.`,
    again: 'Whoever signs again takes its place; the record keeps both.',
    noRehearsal: 'This is a rehearsal: there is nothing to sign.',
  },

  /** A file before it is read in. */
  readIn: {
    title: 'Read in a file',
    help: 'How the columns are read is a guess: look at it, and change what is wrong. Nothing is kept before you read it in.',
    columns: { time: 'Time', pressure: 'Pressure', temperature: 'Temperature', event: 'Event' },
    timeAs: 'Time as',
    pressureIn: 'Pressure in',
    temperatureIn: 'Temperature in',
    timeKinds: {
      seconds: 'seconds',
      minutes: 'minutes',
      clock: 'time of day',
      date: 'date and time',
    },
    separator: 'Cells are divided by',
    separators: { ';': 'semicolon', '\t': 'tab', ',': 'comma' },
    decimal: 'Decimals after a',
    decimals: { '.': 'point', ',': 'comma' },
    none: 'none',
    choose: 'choose…',
    lineNumber: 'line',
    column: ({ number }: { number: string }) => `column ${number}`,
    reading: 'Reading…',
    readingIn: 'Reading it in…',
    leaveOut: 'Leave out the rows that could not be read',
    nothing:
      'No reading was found. Choose the columns above, and how time and pressure are written.',
    unsaid: 'Choose how time and pressure are written: the file does not say.',
    back: 'Another file',
    found: ({ readings, length }: { readings: string; length: string }) =>
      `${readings} over ${length}`,
    foundLowest: (found: { readings: string; length: string; lowest: string }) =>
      `${found.readings} over ${found.length}, ${found.lowest} lowest`,
    withoutPressure: ({ count }: { count: string }) => `${count} of them without a pressure`,
    readings: ({ count, digits }: { count: number; digits: string }) =>
      many(count, { one: `${digits} reading`, other: `${digits} readings` }),
    events: ({ count, digits }: { count: number; digits: string }) =>
      many(count, { one: `${digits} event`, other: `${digits} events` }),
    unreadable: ({ count, digits }: { count: number; digits: string }) =>
      many(count, {
        one: `${digits} row could not be read`,
        other: `${digits} rows could not be read`,
      }),
    readInCount: ({ readings }: { readings: string }) => `Read in ${readings}`,
    faultyLine: ({ line, fault }: { line: string; fault: string }) => `line ${line}: ${fault}`,
    faults: {
      cells: ({ cell }: { cell: string }) =>
        `it has ${cell} cells, the table has more or fewer; see that it is whole`,
      time: ({ cell }: { cell: string }) =>
        `“${cell}” is no time of the chosen kind; choose another, or put it right`,
      time_back: ({ cell }: { cell: string }) =>
        `“${cell}” is earlier than the row before; sort the rows by time`,
      time_long: ({ cell }: { cell: string }) =>
        `“${cell}” is more than 49 days from the start; is it in that unit?`,
      pressure: ({ cell }: { cell: string }) =>
        `“${cell}” is no pressure; leave it empty where nothing was measured`,
      pressure_negative: ({ cell }: { cell: string }) =>
        `“${cell}” is below zero, as absolute pressure can’t be; make gauge pressure absolute`,
      pressure_high: ({ cell }: { cell: string }) =>
        `“${cell}” is more than any sensor shows; is it in that unit?`,
      temperature: ({ cell }: { cell: string }) =>
        `“${cell}” is no temperature; leave it empty where there is none`,
      event: ({ cell }: { cell: string }) =>
        `“${cell}” is no event that is known: pump on, ballast closed, isolated; or choose no column`,
    },
    furtherFaults: ({ count }: { count: number }) =>
      many(count, { one: 'and one more', other: `and ${count} more` }),
    /** Kept with the recording: what was made of the file. */
    howRead: (how: { time: string; kind: string; pressure: string; unit: string }) =>
      `Read in with time from “${how.time}” (${how.kind}) and pressure from “${how.pressure}” (${how.unit}).`,
    leftOut: ({ count, lines }: { count: number; lines: string }) =>
      many(count, {
        one: `${count} row could not be read and was left out: line ${lines}.`,
        other: `${count} rows could not be read and were left out: line ${lines}.`,
      }),
    leftOutAndOthers: ({ count, lines }: { count: number; lines: string }) =>
      `${count} rows could not be read and were left out: line ${lines} and others.`,
  },

  /** Readings off a gauge without a radio. */
  typeIn: {
    title: 'Type in readings',
    next: 'Type in the next reading',
    help:
      'Read the gauge, type what it shows, Enter, and so on. Each counts as of now; for one that was ' +
      'read before, write 12:40 or −2 min. The recording goes on until you end it, or until twelve ' +
      'hours without a number.',
    end: 'End this recording',
    pressure: ({ unit }: { unit: string }) => `Absolute pressure, ${unit}`,
    metal: ({ unit }: { unit: string }) => `Metal, if measured, ${unit}`,
    when: 'Read at',
    now: 'now',
    enter: 'Enter',
    gauge: 'Your gauge',
    gaugeUnsaid: 'Your gauge: what it is called, where it sits, how fine it shows',
    gaugeSaid: ({ said }: { said: string }) => `Your gauge: ${said}`,
    stepsOf: ({ step }: { step: string }) => `steps of ${step}`,
    last: 'Typed last',
    correct: 'Put right',
    correctTo: ({ name }: { name: string }) => `It should be: ${name}`,
    takeBack: 'Take it back',
    leave: 'Leave it',
    takenBack: 'taken back',
    putRight: ({ pressure }: { pressure: string }) => `put right to ${pressure}`,
    notEntered: ({ pressure, why }: { pressure: string; why: string }) =>
      `${pressure} was not entered. ${why}`,
    mistakable: ({ typed, whole, broken }: { typed: string; whole: string; broken: string }) =>
      `“${typed}” may be ${whole} or ${broken}: write it like one of these.`,
    wrong: {
      pressure:
        'Pressure: this can’t be. Write the absolute pressure as a number, and look at its unit: no ' +
        'vacuum sensor shows more than two atmospheres.',
      when:
        'Read at: this can’t be. Write a time of day as 12:40, or −2 min, or leave it empty for now; ' +
        'eleven hours back at most.',
      temperature: 'Metal temperature: this can’t be. Write a number, or leave it empty.',
    },
  },

  sensors: {
    title: 'Sensors: names and places',
    rename: 'Name this sensor',
    help:
      'Give each sensor a name that says something at the site, and say where it is connected. Both are ' +
      'remembered for this sensor. One at the pump gives no verdict on the system.',
    name: 'Name',
    calibrated: 'Last calibrated, as its certificate has it',
    place: 'It sits',
    places: { unknown: 'not said', system: 'at the system', pump: 'at the pump' },
    step: ({ unit }: { unit: string }) => `Its display goes in steps of, ${unit}`,
    stepWrong: 'The step: a number above zero, or leave it empty.',
    save: 'Save',
    saved: 'Saved.',
    offered: ({ name }: { name: string }) =>
      `${name}: not one that speaks the profile. Give it a name to hear it.`,
    choose: 'Sensors in reach',
    inReach: 'In reach',
    none: 'No sensor that could be named is being recorded. One appears here with its first reading.',
    signals: {
      good: ({ dbm }: { dbm: string }) => `signal good (${dbm} dBm)`,
      fair: ({ dbm }: { dbm: string }) => `signal fair (${dbm} dBm)`,
      weak: ({ dbm }: { dbm: string }) => `signal weak (${dbm} dBm)`,
    },
    battery: ({ percent }: { percent: string }) => `battery ${percent}`,
    clockFast: ({ percent }: { percent: string }) =>
      `its clock runs ${percent} % fast, which is reckoned with`,
    clockSlow: ({ percent }: { percent: string }) =>
      `its clock runs ${percent} % slow, which is reckoned with`,
    stillSo: {
      system: ({ said }: { said: string }) =>
        `Taken to sit at the system, as was said ${said}. Still so? Save it again, or change it.`,
      pump: ({ said }: { said: string }) =>
        `Taken to sit at the pump, as was said ${said}. Still so? Save it again, or change it.`,
    },
    saidBefore: ({ place, said }: { place: string; said: string }) =>
      `${place}, as was said before, ${said}`,
    nameless: 'Sensor',
    /** What is no radio’s peripheral is called by this program. */
    typedIn: 'Typed in',
    simulated: 'Simulated sensor',
    serial: ({ serial }: { serial: string }) => `serial number ${serial}`,
    knownAs: ({ id }: { id: string }) => `known to this computer as ${id}`,
  },

  sheet: {
    title: 'Job sheet',
    names: {
      site: 'Site',
      equipment: 'Equipment',
      refrigerant: 'Refrigerant',
      targetPa: 'Target',
      isolateAtPa: 'Valve off at',
      holdS: 'Hold',
      endLimitPa: 'Rule: at its end at most',
      allowedRisePa: 'Rule: risen by at most',
      passRule: 'Pass rule',
      gaugeErrorShare: 'Gauge’s error, if known',
      leakLimitPaPerS: 'Counts as a leak from',
      volumeM3: 'Volume, if known',
      metalTemperatureC: 'Metal, if known',
      coldestTemperatureC: 'Coldest point, if known',
      sensorSees: 'The sensor sees',
      pumpDisplacementM3PerS: 'Pump, free air',
      pumpUltimatePa: 'Pump, lowest pressure',
      pumpBatteryS: 'Pump’s battery lasts',
      hoseBoreM: 'Hose, bore',
      hoseLengthM: 'Hose, length',
      hoseCount: 'Hoses side by side',
      core: 'Valve cores',
      nitrogenReadings: 'Nitrogen test',
      nitrogenGauge: 'Gauge of the nitrogen test',
      triplePlan: 'Evacuations with nitrogen between',
      seenSection: 'Section that the sensor sees',
      stubVolumeM3: 'Stub with the sensor, volume',
      serial: 'Serial number',
      oil: 'Oil',
      systemHistory: 'The system was',
      altitudeM: 'Altitude',
      ambientTemperatureC: 'Air around it',
      coldestPlace: 'Where it is coldest',
      people: 'Who works on it',
      valveOrder: 'Order of the valves, as the equipment maker has it',
      tickedSteps: 'Steps said by hand',
      pumpBallast: 'Pump, gas ballast',
      pumpOilChangedOn: 'Pump’s oil last changed',
      tubes: 'Lines',
      vessels: 'Coils and vessels',
      sections: 'Sections',
      joins: 'Between sections',
    },
    views: {
      unknown: 'not said yet',
      system: 'the whole connected system',
      section: 'one section of it',
      stub: 'only a stub of the tool',
      pump_side: 'the pump’s side of the valve',
    },
    cores: { unknown: 'Not known', in: 'In place', out: 'Taken out' },
    oils: {
      unknown: 'Not known',
      mineral: 'Mineral oil',
      alkylbenzene: 'Alkylbenzene',
      poe: 'Polyol ester (POE)',
      pve: 'Polyvinyl ether (PVE)',
      pag: 'Polyalkylene glycol (PAG)',
    },
    histories: {
      unknown: 'Not known',
      new: 'New',
      opened: 'Opened for the work',
      open_for_days: 'Open for days',
      burnt_out: 'Burnt out',
      flooded: 'Flooded with water',
    },
    groups: {
      system: 'The system: serial number, refrigerant, oil, what it has been through',
      place: 'The place: altitude, temperatures',
      people: 'People, and the maker’s order of the valves',
    },
    safetyClass: ({ name, meaning }: { name: string; meaning: string }) =>
      `Safety class ${name}: ${meaning}.`,
    safetyClasses: {
      A1: 'lower toxicity, no flame propagation',
      A2L: 'lower toxicity, flammable, burns slowly',
      A3: 'lower toxicity, highly flammable',
      B2L: 'higher toxicity, flammable, burns slowly',
    },
    classSources: {
      second_hand: ({ where }: { where: string }) =>
        `${where}, as others restate it: look it up before it counts.`,
      memory: ({ where }: { where: string }) =>
        `${where}, from memory: look it up before it counts.`,
    },
    flammable:
      'Flammable: no ignition sources (flames, switches, a pump not rated for it, this laptop and the sensor among them), ventilate, exhaust outdoors, a gas detector where the gas gathers (at the floor; ammonia under the ceiling). The equipment maker and the code decide.',
    toxic: 'Of higher toxicity: breathing protection and ventilation as the code asks for.',
    historyAdvice: {
      open_for_days: 'Open for days, walls and oil have taken up water: plan for a nitrogen break.',
      burnt_out:
        'After a burnout: acid test, filter driers and an oil change as the equipment maker says, before any vacuum.',
      flooded:
        'Flooded: drain and blow out with dry nitrogen first, then warm it. A pump alone takes days.',
    },
    hygroscopic:
      'This oil takes up water from the air: keep it closed, and expect a slow tail in the curve.',
    adviceSource: 'Common practice, no source.',
    atmosphere: (of: { kPa: string; inHg: string; bar: string; boils: string }) =>
      `The air there weighs ${of.kPa} kPa by the standard atmosphere (ISO 2533); the weather moves it by some 2 %. That is where a gauge’s zero stands: a full vacuum reads −${of.inHg} inHg or −${of.bar} bar on it. Water boils in the open at ${of.boils}. Absolute sensors, and the limits here, are not changed.`,
    valveOrderHelp: 'The equipment maker’s own order, in the words of the manual.',
    ballasts: { unknown: 'Not known', yes: 'It has one', no: 'It has none' },
    notEntered: 'not entered',
    refrigerantUnknown: 'Not entered',
    ruleHelp: 'Choosing one fills in its figures; the equipment maker’s own come first.',
    viewFilledIn:
      'Taken from where this sensor sits. Put that right under Menu, Sensors: of one at the pump, with others beside it, no entry here makes a verdict on the system.',
    more: 'More, as far as it is known',
    moreHelp:
      'Each makes the numbers behind the verdict say more. The volume turns a rise into a leak rate; the metal’s temperature tells how high water alone can stand.',
    settings:
      'What stands here at the start are settings of ours, not a standard’s. Half the target is a good depth to valve off at.',
    enter: 'Enter',
    wrong: ({ name }: { name: string }) =>
      `${name}: this can’t be. Write a number that makes sense, or put back what was there.`,
    wrongFor: ({ name, why }: { name: string; why: string }) => `${name}: ${why}`,
    unusual: (of: { name: string; figure: string; low: string; high: string }) =>
      `${of.name}: ${of.figure} is far from usual (${of.low} to ${of.high}). Is it so, or is the unit another one?`,
    itIsSo: ({ figure }: { figure: string }) => `It is ${figure}`,
    unit: 'Unit',
  },

  /** What a rig should manage, and what holds it back. */
  rig: {
    title: 'Rig',
    never: 'never',
    faster:
      'Faster than this rig should manage. Part of the system may not be connected, the sensor may ' +
      'sit at the pump, or the volume is smaller than entered.',
    anAid:
      'An aid, not a promise: reckoned for a dry, tight system with the ballast closed. The water that ' +
      'walls and oil always hold makes the last part many times longer. Faster than expected, part of ' +
      'the system may not be connected.',
    ultimateTooHigh:
      'The pump’s own lowest pressure is no lower than the target: this pump never gets there.',
    example: ({ figure }: { figure: string }) => `e.g. ${figure}`,
    parts: { pump: 'pump', hose: 'hose', core: 'valve core', line: 'lines' },
    holdsBack: {
      pump: ({ pressure }: { pressure: string }) =>
        `At ${pressure} the pump holds it back most. Other hoses would change little.`,
      hose: ({ pressure }: { pressure: string }) =>
        `At ${pressure} the hose holds it back most. A wider or shorter hose, or a second one, helps most.`,
      core: ({ pressure }: { pressure: string }) =>
        `At ${pressure} the valve core holds it back most. Taking the cores out helps most.`,
      line: ({ pressure }: { pressure: string }) =>
        `At ${pressure} the system’s own long lines hold it back most. Pump from both ends, if you can; other gear changes little.`,
    },
    missing: {
      volumeM3: 'the system’s volume',
      pumpDisplacementM3PerS: 'the pump’s free-air displacement',
      hoseBoreM: 'the hose’s bore',
      hoseLengthM: 'the hose’s length',
    },
    stillMissing: ({ missing }: { missing: string }) =>
      `No expectation yet. Still missing: ${missing}.`,
    assumptions: {
      pumpUltimatePa: 'a pump without a floor of its own',
      hoseCount: 'one hose',
      core: 'cores taken out',
    },
    assumed: ({ assumed }: { assumed: string }) => `Not entered, and taken for it: ${assumed}.`,
    notInEightHours: 'not within 8 hours',
    speed: ({ speed, pump }: { speed: string; pump: string }) =>
      `${speed} of the pump’s ${pump} L/min`,
    share: ({ part, percent }: { part: string; percent: string }) => `${part} ${percent} %`,
    timeTo: ({ pressure }: { pressure: string }) => `To ${pressure}`,
    timeToTarget: ({ pressure }: { pressure: string }) => `To the target, ${pressure}`,
    speedThere: 'Pumping speed there',
  },

  /** Lines, coils and valves; times with their range; other gear side by side; what departs; the pump alone. */
  planning: {
    volume: {
      title: 'Volume: lines, coils, valves',
      connected: 'Connected to the hose',
      ifOpen: 'If what is not known stands open',
      nothing: 'Nothing is known yet of lines and coils. A preset below is a quick start.',
      range: ({ estimate, low, high }: { estimate: string; low: string; high: string }) =>
        `${estimate} L, between ${low} and ${high} L`,
      uncounted: ({ names }: { names: string }) =>
        `Not counted, since nothing is known of it: ${names}.`,
      bothWays: ({ joins }: { joins: string }) =>
        `Not known whether open: ${joins}. Opening it, or shutting it, makes one answer of two.`,
      takeOver: ({ litres }: { litres: string }) => `Take ${litres} L over as the volume`,
      onSheet: ({ litres }: { litres: string }) => `On the sheet: ${litres} L.`,
      notOnSheet: 'No volume on the sheet yet.',
      source:
        'Tube sizes: ASTM B280 as others restate it, EN 12735-1 from memory. By charge: density of the boiling liquid at 20 °C, and that liquid fills a fifth to half of the part (a receiver half to nine tenths): common practice, no source. A usual part is a rough guess, no source. The equipment maker’s figure comes first.',
      unusual: ({ name, said }: { name: string; said: string }) =>
        `${name}: ${said}. Is it so, or is the unit another one? A unit may stand beside the figure: 25 ft, 3 lb.`,
      itIsSo: 'It is so',
      presets: {
        name: 'Fill in a preset',
        line_set: 'Line set and indoor unit, outdoor unit shut off with its charge',
        whole_split: 'A whole split system',
        several_units: 'Several indoor units, outdoor unit shut off',
        fill: 'Fill in',
        replaces: 'What stands in the lists below is replaced, once you enter it.',
      },
      sectionNames: {
        lines: 'Line set and indoor unit',
        outdoor: 'Outdoor unit',
        lowSide: 'Compressor and low side',
        outdoorCoil: 'Outdoor coil',
        main: 'Main lines',
        indoor: ({ number }: { number: string }) => `Indoor unit ${number}`,
      },
      sections: 'Sections',
      sectionName: 'Name',
      litres: 'Volume, L, if known',
      hoseHere: 'Hose here',
      tubes: 'Lines',
      role: 'What for',
      roles: {
        gas: 'gas',
        liquid: 'liquid',
        suction: 'suction',
        discharge: 'discharge',
        other: 'other',
      },
      size: 'Size',
      tempers: { annealed: 'coil', drawn: 'straight' },
      ownSize: 'own size',
      outerMm: 'Outside, mm',
      wallMm: 'Wall, mm',
      lengthM: 'Length, m',
      section: 'Section',
      theHoseSection: 'where the hose is',
      vessels: 'Coils and vessels',
      kind: 'Part',
      kinds: {
        indoor_coil: 'indoor coil',
        outdoor_coil: 'outdoor coil',
        compressor: 'compressor',
        accumulator: 'accumulator',
        receiver: 'receiver',
        filter_drier: 'filter drier',
        other: 'other',
      },
      by: 'Known by',
      bys: { volume: 'volume', charge: 'charge', usual: 'as is usual' },
      amount: { volume: 'Litres', charge: 'Kilograms', usual: 'As is usual' },
      refrigerant: 'Refrigerant',
      joins: 'What joins the sections',
      joinKind: 'Valve or line',
      joinKinds: {
        open_line: 'open line',
        service_valve: 'service valve',
        branch_valve: 'branch valve',
        expansion_valve: 'expansion valve',
        reversing_valve: 'reversing valve',
        solenoid: 'solenoid valve',
        check_valve: 'check valve',
      },
      from: 'Between',
      to: 'and',
      state: 'It stands',
      states: { unknown: 'not known', open: 'open', closed: 'closed' },
      add: ({ what }: { what: string }) => `Add: ${what}`,
      remove: ({ what }: { what: string }) => `Remove: ${what}`,
      enter: 'Enter',
      reasons: {
        number: 'this needs a number that makes sense.',
        wall: 'the wall is thicker than the tube. Enter the outer diameter, and one wall.',
        name: 'give each section a name of its own.',
        ends: 'name two different sections.',
        unknown: 'it names a section that is not in the list. Choose its section anew.',
        many: 'no more than forty rows.',
      },
      listed: {
        charged: ({ charge, refrigerant }: { charge: string; refrigerant: string }) =>
          `made for ${charge} kg of ${refrigerant}`,
        sectionWithHose: ({ section }: { section: string }) => `${section}, hose here`,
        join: ({
          kind,
          one,
          other,
          state,
        }: {
          kind: string;
          one: string;
          other: string;
          state: string;
        }) => `${kind} between ${one} and ${other}: ${state}`,
      },
      map: 'Map of the sections',
    },
    time: ({ estimate, between }: { estimate: string; between: string }) =>
      `about ${estimate}, ${between}`,
    barsAt: ({ pressure }: { pressure: string }) => `What holds it back at ${pressure}`,
    nothingThere: 'This pump does not get there.',
    battery: {
      name: 'Pump’s battery',
      enough: ({ lasts }: { lasts: string }) => `${lasts}: enough for a system that is dry.`,
      close: ({ lasts }: { lasts: string }) =>
        `${lasts}: may just do. Water would make it longer; have a second one ready.`,
      not_enough: ({ lasts }: { lasts: string }) => `${lasts}: not enough, even if all is dry.`,
    },
    whatIf: {
      title: 'What if: other gear, side by side',
      asEntered: 'as entered',
      changes: {
        cores_out: 'cores out',
        larger_hose: 'hose one size larger',
        second_hose: 'a second hose',
        shorter_hose: 'hose half as long',
        larger_pump: 'pump twice as large',
      },
      gear: 'Gear',
      speed: 'L/min at the target',
      curves:
        'Expected curves of the gear in the table, over the time since the pump was switched on.',
      help: 'For a system that is dry and tight. A larger hose mostly beats a larger pump: common practice, no source; here it is reckoned.',
    },
    deviation: {
      slower: ({ low, high }: { low: string; high: string }) =>
        `Slower from the start than this rig should be: between ${low} and ${high} times. Look for a core left in, a kinked or thin hose, a weak pump; or the volume is larger than entered.`,
      plateau: ({ pressure, since }: { pressure: string; since: string }) =>
        `It parted from the expected curve at ${pressure} and has stood near there for ${since}: water is boiling. It ends when the water is gone; warm the coldest part, and give it time.`,
      floor: ({ between }: { between: string }) =>
        `It heads for a floor of ${between}: higher than this rig should have. Look at the oil, an open ballast, or a leak. Very moist walls and oil can look like this as well.`,
      standstill: ({ pressure, since }: { pressure: string; since: string }) =>
        `It has stood near ${pressure} for ${since}; dry and tight, this rig would be far below. Water or its ice gives off gas, or a leak, the oil or an open ballast holds it: warm the coldest part and close the ballast, then look which of them moves it.`,
    },
    pumpCheck: {
      title: 'Pump check',
      help: 'Sensor on the pump alone, all else shut off. Set what the sensor sees to the pump’s side, and switch the pump on.',
      shouldReach: 'It should reach',
      entered: ({ pressure, good }: { pressure: string; good: string }) =>
        `${pressure}, as entered; up to ${good} is good enough`,
      usual: ({ pressure }: { pressure: string }) =>
        `${pressure} or lower (common practice for a two-stage pump, no source); the pump maker’s figure comes first`,
      within: 'Within',
      now: 'Now',
      verdicts: {
        not_on: 'The pump has not been switched on yet, as far as the curve and the marks tell.',
        wrong_view:
          'The sensor is not said to see the pump’s side: this would judge the system, not the pump.',
        too_early: 'Too early to tell: give it until then.',
        good: 'Pump, oil and hose are in order.',
        still_falling: 'Still falling: let it run warm, ballast closed, and look again.',
        high_floor:
          'It stays too high. Change the oil, warm, and try again; then look at the hose’s seals and the ballast.',
        far_too_high:
          'It stays far too high. Most likely a hose or its seal lets air in, or the ballast stands open; then the oil, then the pump.',
        rising: 'It rises again: a hose or its seal lets air in, or the pump has stopped.',
        sensor: 'The sensor shows no pressure.',
      },
      setView: 'The sensor sees the pump’s side',
    },
  },

  /** The report, on paper. */
  report: {
    title: 'Report on evacuation and hold',
    rehearsalTitle: 'Report on a rehearsed evacuation and hold',
    /** On every page of a rehearsal's report, and large across it. */
    rehearsalStamp: 'Rehearsal',
    rehearsalEdge: 'REHEARSAL on a simulated system. Not a job.',
    name: ({ number }: { number: string }) => `Report ${number}`,
    rehearsalName: ({ number }: { number: string }) => `Rehearsal ${number}`,
    origin: 'Where the readings come from',
    began: 'Recording began',
    readIn: 'Read in',
    length: 'Length',
    recording: 'Recording',
    readings: 'Readings',
    origins: {
      sensor: { name: 'A sensor, by radio', statement: '' },
      rehearsal:
        'A rehearsal on a simulated system. No real equipment was measured; this is no evidence of any job.',
      import: {
        name: 'A file',
        statement: ({ title }: { title: string }) =>
          `Read in from the file “${title}”. This program did not hear them from a sensor and can’t vouch for them; the file does not say when it began.`,
      },
      typed_in: {
        name: 'Typed in',
        statement:
          'Read off a gauge and typed in by hand. This program did not hear them from a sensor and can’t vouch for them.',
      },
    },
    provisional: ({ at }: { at: string }) =>
      `Still being recorded. This is how it stood ${at} into it; the verdict may change.`,
    verdict: 'Verdict',
    ofSensor: ({ heading, number }: { heading: string; number: string }) =>
      `${heading}, sensor ${number}`,
    ofSensorNamed: (of: { heading: string; number: string; name: string }) =>
      `${of.heading}, sensor ${of.number} (${of.name})`,
    undecided: 'Undecided: neither passed nor failed',
    viewNotEntered:
      'Nobody entered what the sensor saw: this holds for whatever was connected to it, and no more.',
    mayStillSettle: ({ more }: { more: string }) => `Another ${more} may settle it.`,
    mightHaveSettled: ({ more }: { more: string }) =>
      `Another ${more} of hold might have settled it.`,
    foreseen: ({ held, whole }: { held: string; whole: string }) =>
      `Held for ${held} of ${whole}: where it would end is foreseen from the curve, not measured.`,
    pumpedAfter:
      'After this hold the system was pumped again: what came then is not covered by it.',
    noHold: 'No verdict: no hold was recorded',
    noHoldWhy:
      'Neither a mark nor the curve shows that the system was valved off. A pull-down alone proves neither that it is tight nor that it is dry.',
    targetNotReached: ({ target }: { target: string }) =>
      `${target}, the target, was not reached and held.`,
    targetReached: ({ target, at }: { target: string; at: string }) =>
      `${target}, the target, was reached and held, ${at} into the recording.`,
    noReadings: 'No verdict: there are no readings',
    numbers: 'The numbers behind it',
    curves: 'Curves',
    wholeCurve: 'The whole recording',
    holdCurve: 'The hold',
    holdOf: ({ number, of }: { number: string; of: string }) => `Hold ${number} of ${of}`,
    poles: 'A pole without a name had no room for one; it is in the table of marks.',
    holds: 'Holds',
    water: 'Water pumped away',
    stages: 'Stages',
    byMark: 'a mark',
    byCurve: 'the curve',
    marks: 'Marks',
    noMarks: 'No mark was set.',
    authors: { hand: 'hand', rehearsal: 'the rehearsal', import: 'the file', bridge: 'the bridge' },
    steps: 'Steps',
    stepsHelp:
      'Known from the curve, by a mark or a word by hand, or from the job sheet. “Nothing says so”: the work went on past it.',
    closingUp: 'Closing up',
    settings: 'Settings and pass rule',
    settingsSource:
      'What nobody entered is this program’s own setting, not a standard’s. The equipment maker’s figure comes first.',
    entries: 'Entered on the job sheet',
    noEntries: 'Nothing was entered.',
    takenBack: 'Slips that were put right',
    takenBackHelp:
      'Typed in by mistake and taken back. No curve or conclusion has them; the record keeps them.',
    nothingInstead: 'nothing',
    gaps: 'Gaps',
    noGaps: 'No reading is missing.',
    restarted: 'the sensor started anew',
    silence: 'silence',
    missing: ({ count }: { count: number }) =>
      many(count, { one: `${count} reading missing`, other: `${count} readings missing` }),
    furtherGaps: ({ count, length }: { count: string; length: string }) =>
      `${count} shorter ones besides, ${length} together.`,
    furtherGapsUncounted: (gaps: { count: string; length: string; uncounted: string }) =>
      `${gaps.count} shorter ones besides, ${gaps.length} together, and ${gaps.uncounted} whose lengths were not kept.`,
    sensor: 'Sensor',
    /** How many readings were of which kind. */
    counts: {
      ok: ({ count }: { count: string }) => `${count} measured`,
      over_range: ({ count }: { count: string }) => `${count} above the sensor’s range`,
      under_range: ({ count }: { count: string }) => `${count} below the sensor’s range`,
      warming_up: ({ count }: { count: string }) => `${count} while the sensor warmed up`,
      fault: ({ count }: { count: string }) => `${count} reported as a fault`,
    },
    label: {
      name: 'Called by the technician',
      place: 'It sat',
      displayStep: 'Its display goes in steps of',
    },
    identity: {
      name: 'Its own name',
      manufacturer: 'Maker',
      model: 'Model',
      serial: 'Serial number',
      firmware: 'Firmware',
      id: 'Known to this computer as',
    },
    unknown: 'not told',
    proof: 'What a vacuum hold proves, and what not',
    proves:
      'A rise within its limits shows that little water was left, and that no gross leak was open, in the part that the sensor sees.',
    provesNot:
      'It does not show a leak that opens only under pressure or in the cold, nor one behind a closed valve. It finds gross leaks only; the nitrogen pressure test decides tightness.',
    /** Of the chain of hashes over the facts. */
    integrity: {
      title: 'Is it as it was recorded?',
      unbroken: ({ facts }: { facts: string }) =>
        `Yes: the ${facts} facts of this recording (readings, marks, entries and what else was written down) are those over which this hash was reckoned as they came:`,
      /** Of a report on one job: the chain is over all jobs of the recording. */
      unbrokenWithJob: ({ facts }: { facts: string }) =>
        `Yes: the ${facts} facts of the whole recording, of which this job is a part (readings, marks, entries and what else was written down), are those over which this hash was reckoned as they came:`,
      addedLater: ({ facts }: { facts: string }) =>
        `Of these, ${facts} were taken up into the hashes after they had been recorded. What they were until then nobody can tell.`,
      deleted: ({ facts }: { facts: string }) =>
        `Besides, ${facts} facts of this recording were deleted for good; their hashes are still there.`,
      proves:
        'Keep this page. As long as the record leads to this hash, none of these facts has been changed, added or removed since: npm run verify-record -- --hash, and the hash.',
      provesNot:
        'It does not show that a sensor measured rightly or stood where it was said to, nor that what was typed in is true. Whoever can write to the computer can reckon all hashes anew; not the one on your page.',
      salvaged: 'Saved from a damaged file',
      saved: ({
        saved,
        atLeast,
        otherSaved,
        otherAtLeast,
      }: Record<'saved' | 'atLeast' | 'otherSaved' | 'otherAtLeast', string>) =>
        `Of this recording ${saved} of at least ${atLeast} readings could be saved, and ${otherSaved} of at least ${otherAtLeast} other entries.`,
      mayChange:
        'What was lost is missing from curve and conclusions, whichever part of the recording this report is on.',
      notAll: 'Not all of it is there: its file was damaged.',
      remains: ({ facts }: { facts: string }) =>
        `What is left are ${facts} facts (readings, marks, entries and what else was written down), over which this hash was reckoned:`,
      broken: 'Altered or damaged',
      brokenHow:
        'Facts of this recording were changed, added or removed after they had been recorded, or the file is damaged. Do not rely on this report.',
      brokenAt: ({ what, link, where }: { what: string; link: string; where: string }) =>
        `${what} (link ${link}: ${where}).`,
      breaks: {
        link_unreadable: 'A link of the chain can’t be read',
        link_missing: 'A link of the chain is missing',
        goes_on_from_nothing: 'The recording before this one is not the one it followed',
        fact_missing: 'A fact is missing',
        hash_differs: 'A fact or a link is another one',
        fact_outside: 'There is a fact more than was recorded',
      },
    },
    drawnBy: ({ version }: { version: string }) =>
      `Conclusions drawn by Ebbline ${version} from the facts of the recording.`,
    rawData:
      'The readings themselves are in this recording’s CSV file, from which anybody can draw the conclusions again.',
    rawDataAttached: ({ files }: { files: string }) =>
      `The readings, and all else that was recorded, are attached to this file (${files}): anybody can draw the conclusions again from them.`,
    jobDataAttached: ({ files }: { files: string }) =>
      `The readings of this job, and all else that was recorded of it, are attached to this file (${files}); what the recording holds besides is not. Anybody can draw the conclusions again from them. The hash, which is of the whole recording, can’t be reckoned from them.`,
    /** At the foot of every page. */
    page: ({ page, of }: { page: string; of: string }) => `Page ${page} of ${of}`,
    hashBegins: ({ hash }: { hash: string }) => `Hash ${hash} …`,
    /** In the name of a file. */
    file: ({ number }: { number: string }) => `report ${number}`,
    rehearsalFile: ({ number }: { number: string }) => `rehearsal report ${number}`,
    signOff: 'Sign-off',
    noSignOff: 'Nothing to sign: this was a rehearsal.',
    signers: ['Work done by', 'Seen by'],
    signColumns: ['Name', 'Signature', 'Date'],
    signedBy: 'Signed off by',
    licence: 'Licence',
    signedAt: 'On',
    signRemark: 'Remark',
    signedFor: 'For this conclusion',
    drawnThen: 'Drawn then by',
    signedBefore: ({ length }: { length: string }) =>
      `The job went on for ${length} after it was signed. What was recorded then is not signed for; look at its verdict above.`,
    signedOther:
      'This was signed for another stretch of the recording than the one that is reported here: do not rely on it.',
    signedHow:
      'Name, licence and remark as they were entered; the program has not checked who entered them.',
    signedThere:
      'This recording was taken from another record. A sign-off that came with it stands as the file has it: nothing here shows who entered it, or when.',
    jobOf: ({ number, at }: { number: string; at: string }) =>
      `${number}, of it the job that begins ${at} after its start`,
    takenFrom: ({ number, at, software }: { number: string; at: string; software: string }) =>
      `Taken from another record, where it was recording ${number}, begun ${at}, written by Ebbline ${software}.`,
    rehearsedByFile: 'The file that it was read in from says that it was a rehearsal.',
    heldThere: 'Its facts were unaltered when they were taken over.',
    notHeldThere: 'That its facts were unaltered when they were taken over could not be shown.',
    marksTakenBack: 'Marks that were slips',
    marksTakenBackHelp:
      'Set by mistake and taken back. No stage or conclusion rests on them; the record keeps them.',
    calibrated: 'Last calibrated (as entered)',
    columns: {
      at: 'At',
      clock: 'Clock',
      step: 'Step',
      known: 'State, and how it is known',
      mark: 'Mark',
      setBy: 'Set by',
      stage: 'Stage',
      began: 'Began',
      lasted: 'Lasted',
      knownBy: 'Known from',
      from: 'From',
      what: 'What happened',
      entry: 'Entry',
      value: 'Value',
      typed: 'Typed',
      instead: 'In its place',
      takenBack: 'Taken back',
      verdict: 'Verdict',
      inflow: 'Steady inflow',
      pumped: 'Pumped before',
      hold: 'Hold',
      rose: 'Rose',
      pullDown: 'Pull-down from',
      water: 'Water',
      seen: 'Seen',
    },
  },

  /** The nitrogen test. Every pressure of it is what a gauge shows, and says so. */
  nitrogen: {
    title: 'Nitrogen test',
    gauge: ({ amount }: { amount: string }) => `${amount} (gauge)`,
    pressure: ({ unit }: { unit: string }) => `Pressure, ${unit} (gauge)`,
    unit: 'Pressures are read in',
    unitName: ({ unit }: { unit: string }) => `${unit} (gauge)`,
    before: [
      'Vacuum sensor taken off, or its valve shut, before any pressure is let in.',
      'Dry nitrogen only, through a regulator and with a relief device. Never oxygen or air.',
      'Never above the maker’s test pressure: the low side may take less than the high side.',
    ],
    during: [
      'Stand clear while the pressure goes up, and let nobody tighten a joint under pressure.',
      'Shut the cylinder and take its hose off: a valve that passes hides a leak.',
    ],
    after: [
      'Let the nitrogen out slowly, outdoors or with the room aired: it displaces oxygen.',
      'Open the sensor only once the gauge stands at zero: test pressure destroys it.',
    ],
    entry: 'Read now',
    temperature: ({ unit }: { unit: string }) => `Metal, ${unit}`,
    step: 'Which pressure in turn',
    justFilled: 'Just filled: the gas has yet to settle',
    note: 'Remark',
    enter: 'Enter',
    wrong: {
      pressure:
        'Pressure: this can’t be. Write what the gauge shows as a plain number, without a mark for thousands.',
      temperature: 'Metal: this can’t be. Write a number, or leave it empty.',
      when: 'Read at: this can’t be. Write a time of day as 12:40, or −20 min, or −24 h (at most 7 days back), or leave it empty for now.',
      step: 'Which pressure in turn: write a whole number from 1 to 9.',
      tooMany: 'There are as many readings as are kept. Take some away first.',
    },
    unusual: ({ said }: { said: string }) =>
      `${said} is unusual for this test. Is it so, or is the unit another one?`,
    itIsSo: ({ said }: { said: string }) => `It is ${said}`,
    aboveMost: ({ most }: { most: string }) =>
      `That is above ${most}, which you entered as the most that the maker allows.`,
    readings: 'Readings',
    stepName: ({ step }: { step: string }) => `Pressure ${step}`,
    filled: 'just filled',
    noTemperature: 'metal not measured',
    takeAway: 'Take away',
    takeAwayNamed: ({ reading }: { reading: string }) => `Take away: ${reading}`,
    none: 'Nothing read yet. Fill, wait a quarter of an hour for the gas to come to the metal’s temperature, then read gauge and thermometer: that is the start.',
    settling: ({ at }: { at: string }) =>
      `Just filled: wait until ${at}, then read the start. What the gas does until then is no leak.`,
    begun: ({ pressure, at }: { pressure: string; at: string }) =>
      `Begun at ${at} with ${pressure}. Read gauge and thermometer again after a while.`,
    verdicts: {
      holds: 'Holds: no loss that counts',
      leaks: 'Leaks: more is missing than temperature explains',
      undecided: 'Undecided',
      not_settled: 'Temperature not settled',
    },
    reservations: {
      just_filled: 'The start was read before the gas had settled: read a new start.',
      temperatures_apart:
        'The metal has changed by more than one thermometer can tell for all of the gas: wait until it is as warm as at the start.',
      temperature_unknown: 'The metal was not measured at both readings.',
      too_soon:
        'A leak that counts would not have shown yet; a finer gauge and thermometer need less time.',
      too_little:
        'Too little pressure to test anything: fill to at least 1 bar (gauge), and to the test pressure for a test that counts.',
      filled_again:
        'Filled again after a loss: find the leak, then mark ‘just filled’ and read a new start.',
      risen:
        'The pressure rose by more than temperature explains: is the cylinder shut off, and does the thermometer sit on the metal?',
    },
    stands: ({ expected, now }: { expected: string; now: string }) =>
      `By temperature it should stand at ${expected}; it stands at ${now}.`,
    missing: ({ amount }: { amount: string }) => `Missing: ${amount}.`,
    more: ({ amount }: { amount: string }) => `More than expected: ${amount}.`,
    nothing: ({ amount }: { amount: string }) =>
      `No difference beyond what gauge and thermometer may err: ${amount} either way.`,
    realGas: ({ amount, by }: { amount: string; by: string }) =>
      `Temperature alone changes it by ${amount}; ${by} of that because nitrogen at this pressure is no ideal gas (second virial coefficient, Kaye and Laby).`,
    noLoss: ({ length, rate }: { length: string; rate: string }) =>
      `No loss seen; in ${length} a loss of ${rate} would have shown`,
    leastSeen: ({ length, rate }: { length: string; rate: string }) =>
      `In ${length} a loss of ${rate} or more would have shown; a smaller one would not.`,
    leastFlow: ({ flow }: { flow: string }) => `That is ${flow} of nitrogen at this pressure.`,
    lossFlow: ({ flow }: { flow: string }) => `It loses ${flow} of nitrogen at this pressure.`,
    counts: ({ rate }: { rate: string }) =>
      `Counts from ${rate} on: the job sheet’s limit under vacuum, as many times over as the pressure is higher than the air’s.`,
    perHour: ({ amount }: { amount: string }) => `${amount} an hour`,
    wait: ({ more }: { more: string }) => `Read again after another ${more}.`,
    own: 'Your gauge and thermometer',
    accuracy: 'Gauge’s class, %',
    accuracyOf: 'of',
    ofWhat: { full_scale: 'the whole scale', reading: 'the reading' },
    fullScale: ({ unit }: { unit: string }) => `End of its scale, ${unit} (gauge)`,
    finest: ({ unit }: { unit: string }) => `Finest step that you can read, ${unit}`,
    thermometer: ({ unit }: { unit: string }) => `Thermometer’s error, ${unit}`,
    ambient: 'The air’s own pressure, kPa (absolute), if known',
    makersMost: ({ unit }: { unit: string }) => `Most that the maker allows, ${unit} (gauge)`,
    wrongGauge: ({ name }: { name: string }) =>
      `${name}: this can’t be. Write a number that makes sense.`,
    errors:
      'The same gauge, left connected: most of its error is alike twice and cancels; a third of its class is taken not to. The thermometer may err anew each time, and the gas may lag a quarter of a change behind. Settings of ours.',
    stepsTitle: 'Pressures in turn',
    stepNames: {
      usual: 'Usual',
      'ufgs-15741n': 'A specification',
      'ufgs-15182': 'Another specification',
    },
    noSource: 'Common practice, no source.',
    makersPressure: 'the maker’s test pressure',
    forAtLeast: ({ pressure, length }: { pressure: string; length: string }) =>
      `${pressure} for ${length}`,
    makerFirst: 'The maker’s own figures come first.',
    count: ({ count, last }: { count: number; last: string }) =>
      many(count, { one: `1 reading, ${last}`, other: `${count} readings, the last ${last}` }),
    class: ({ percent, ofWhat }: { percent: string; ofWhat: string }) =>
      `${percent} % of ${ofWhat}`,
    columns: { step: 'In turn', shown: 'Shown', metal: 'Metal', remark: 'Remark' },
    byGauge: ({ accuracy }: { accuracy: string }) => `Read from a gauge of class ${accuracy}.`,
  },

  /** Several evacuations with nitrogen between them. */
  cycles: {
    title: 'Nitrogen breaks',
    ofPlan: ({ number, of }: { number: string; of: string }) => `Evacuation ${number} of ${of}`,
    next: {
      pull_down: ({ which, target }: { which: string; target: string }) =>
        `${which}: down to ${target}.`,
      hold: ({ which, length }: { which: string; length: string }) =>
        `${which}: valve off and hold it for ${length}.`,
      break: ({ which, pressure }: { which: string; pressure: string }) =>
        `${which} is done: break it with dry nitrogen to ${pressure}, then go on.`,
      done: ({ of }: { of: string }) => `All ${of} evacuations are done. The last hold decides.`,
    },
    open: 'Nitrogen breaks…',
    noPlan: 'Nothing is planned. What has been done shows all the same.',
    noCycles: 'No evacuation yet.',
    number: ({ number }: { number: string }) => `Evacuation ${number}`,
    cameTo: ({ depth }: { depth: string }) => `came to ${depth}`,
    notSeen: 'depth not seen',
    target: ({ target, outcome }: { target: string; outcome: string }) =>
      `target ${target}: ${outcome}`,
    reached: 'reached',
    notReached: 'not reached',
    held: ({ length }: { length: string }) => `held ${length}`,
    heldTooShort: ({ length, asked }: { length: string; asked: string }) =>
      `held ${length}, of ${asked} that are asked for`,
    brokenAt: ({ pressure }: { pressure: string }) => `broken at ${pressure}`,
    notMarked:
      'something came in fast that nobody marked as nitrogen: not counted as a break (a gross leak looks the same)',
    wasBreak: ({ at, pressure }: { at: string; pressure: string }) =>
      `From ${at} it was filled to ${pressure}, stood still there, and was pumped again: was that a nitrogen break?`,
    markBreak: 'Yes, mark it as nitrogen',
    water: ({ amount }: { amount: string }) => `water boiled off: ${amount}`,
    airLeft: ({ parts }: { parts: string }) =>
      `Of the air at the start at best 1 part in ${parts} is left, if the nitrogen mixed with all of it each time. Dead ends that do not mix keep more. It says nothing of water in oil, in walls or as a liquid.`,
    trend: {
      too_few: 'Whether it dries shows once two evacuations have been held alike.',
      drying: 'Each rise ends lower than the one before: it is drying.',
      levelling: 'Each rise is levelling off lower: it is drying.',
      same: 'The rises are alike: it is not drying, or what rises is a leak.',
      more: 'A later rise is higher than an earlier one: it is not drying, or a leak has come.',
      unlike: ({ why }: { why: string }) =>
        `Whether it dries can’t be said: the holds differ (${why}).`,
      compared: ({ length, rises }: { length: string; rises: string }) =>
        `Risen from half a minute to ${length} after valve-off: ${rises}.`,
    },
    unlike: {
      too_short: 'one is shorter than 4 min',
      start: 'they began at different pressures',
      length: 'they lasted differently',
      temperature: 'the metal was warmer in one of them',
      temperature_unknown: 'nobody measured the metal in each',
    },
    waterAll: ({ amount }: { amount: string }) => `Water boiled off so far: ${amount}.`,
    flooded:
      'That is a puddle, and nitrogen does not dilute a puddle: drain the low points, blow them out with nitrogen, warm them, change the pump’s oil, and go on then.',
    plan: 'Plan',
    from: 'Depths from',
    sources: { own: 'Your own', teaching: 'Three depths, as courses teach them' },
    teachingSource:
      'Seen in texts of courses, which name no source. The equipment maker’s own depths come first.',
    depth: ({ number, unit }: { number: string; unit: string }) => `Depth ${number}, ${unit}`,
    holdMin: ({ number }: { number: string }) => `Hold ${number}, min, if any`,
    breakTo: ({ unit }: { unit: string }) => `Broken to, ${unit} (gauge)`,
    add: 'One more',
    remove: 'One fewer',
    enter: 'Enter',
    wrong:
      'This plan can’t be. Write a depth for each evacuation, and minutes or nothing for its hold.',
    caution:
      'Dry nitrogen through a regulator, with a relief device; never oxygen. Valve the sensor off first if it is not rated for it, and never above the maker’s pressure.',
  },

  /** A leak is looked for, section by section. */
  hunt: {
    title: 'Leak hunt',
    steps: [
      'Sensor alone first: shut its valve for 3 minutes. That proves or excludes its own joints.',
      'Then shut off one section after another, pump it down, valve off, and tap here which one the sensor sees.',
      'A section rises by what leaks into it: the one with the leak rises on.',
    ],
    seesNow: 'The sensor sees now',
    system: 'The whole system',
    stub: 'The sensor alone',
    pump_side: 'The pump’s side',
    section: 'A section',
    another: 'Another section',
    name: 'Its name',
    tap: 'It sees this one',
    noHolds: 'No hold yet: valve off, and what rises shows here.',
    from: ({ at, length }: { at: string; length: string }) => `from ${at}, ${length}`,
    verdicts: {
      leaks: 'Leaks',
      no_leak: 'No leak that counts',
      undecided: 'Undecided',
      not_told: 'Not to be told',
    },
    rises: ({ rate }: { rate: string }) => `steady rise ${rate}`,
    flow: ({ flow }: { flow: string }) => `inflow ${flow}`,
    lessStub: ({ flow }: { flow: string }) => `without the sensor’s own joints ${flow}`,
    tooFast: 'it rose too fast to fit: a large leak, or gas that was let in',
    noVolume: 'volume not known: how much flows in can’t be said',
    curve: ({ part }: { part: string }) => `Rise of: ${part}`,
    finding: {
      not_tested: 'The sensor has not been held alone yet: its own joint may be what leaks.',
      excluded: 'The sensor’s own joints are excluded: too little flows in there.',
      explains:
        'All of it may come in at the sensor’s own joints. Mend them and hold again: nothing is passed by taking it off.',
      part: 'Some of it comes in at the sensor’s own joints. Mend them, then hold again.',
      suspect:
        'The sensor alone rises much faster than the whole: its own joints are suspect. Its volume would tell how much flows in.',
      undecided: 'The sensor’s own joints are neither excluded nor found out yet.',
    },
    place: {
      no_sections: 'No section has been held by itself yet.',
      found: ({ name, chance }: { name: string; chance: string }) =>
        `The leak is in: ${name} (${chance}).`,
      several: ({ names, chance }: { names: string; chance: string }) =>
        `More than one leaks: ${names} (${chance}).`,
      none_of_them: ({ chance }: { chance: string }) =>
        `In none of those that were held (${chance}): look at what joins them, and at what has not been held.`,
      undecided: 'Undecided: hold them longer, or again.',
      likeliest: ({ name, chance }: { name: string; chance: string }) =>
        `Undecided. Likeliest so far: ${name} (${chance}).`,
      sensor_first: 'Everything that was held rises: hold the sensor alone first.',
    },
    pastValve:
      'Or gas comes past a closed valve from a side that still holds its charge: from outside nothing shows that.',
    pastValveLikely:
      'The nitrogen test held: then rather gas that comes past a closed valve from a side that still holds its charge.',
    stubVolume: 'Volume of sensor, hose and fittings beyond that valve, mL',
    enter: 'Enter',
    wrongVolume: 'Volume: this can’t be. Write a number of millilitres, or leave it empty.',
    sensors: {
      title: 'All sensors together',
      waits: ({ names }: { names: string }) => `Still waiting for: ${names}.`,
      waitsFor: ({ names, more }: { names: string; more: string }) =>
        `Still waiting for: ${names}, another ${more}.`,
      seenBy: ({ names }: { names: string }) => `seen by ${names}`,
      awaits: ({ names }: { names: string }) => `waits for ${names}`,
      atPump: 'One that sits at the pump counts for nothing here, once its place is said.',
    },
  },
};

/** What a language has to say. Another one that leaves something out does not compile. */
export type Wording = typeof english;
