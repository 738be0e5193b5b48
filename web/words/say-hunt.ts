/** A leak hunt, in words. */
import type { HuntHold } from '../analysis/hunt/hunt-hold.ts';
import type { LeakHunt } from '../analysis/hunt/leak-hunt.ts';
import type { SeenPart } from '../analysis/seen/seen-part.ts';
import type { SlowestVerdict } from '../analysis/verdict/slowest-verdict.ts';
import type { Estimate } from '../analysis/conclusions.ts';
import { sayBetween } from './say-between.ts';
import { sayDuration, sayMoment, sayRoughDuration } from './say-duration.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayChance } from './say-percent.ts';
import { sayRateBetween } from './say-pressure.ts';
import { asSentence } from './said-conclusion.ts';
import { namesOf } from './say-together.ts';
import type { Speech } from './speech.ts';

export function sayPart(part: SeenPart, { wording }: Speech): string {
  if (part.kind !== 'section') return wording.hunt[part.kind];
  return part.name === '' ? wording.hunt.section : part.name;
}

/** 'from 3:05, 5 min; steady rise about 12 micron a minute …; inflow …'. */
export function sayHuntHold(hold: HuntHold, speech: Speech): string {
  const words = speech.wording.hunt;
  const { fromS, toS, tooFast, leakPaPerS, leakRatePaM3PerS: rate, lessStub } = hold;
  const noRate = tooFast ? words.tooFast : words.noVolume;
  return [
    words.from({ at: sayMoment(fromS), length: sayDuration(toS - fromS) }),
    ...(leakPaPerS === null ? [] : [words.rises({ rate: sayRateBetween(leakPaPerS, speech) })]),
    ...(rate === null ? [noRate] : [words.flow({ flow: sayFlow(rate, speech) })]),
    ...(lessStub === null ? [] : [words.lessStub({ flow: sayFlow(lessStub, speech) })]),
  ].join('; ');
}

/** @param passedNitrogen the nitrogen test held; null where there was none, or nothing came of it */
export function sayHunt(hunt: LeakHunt, passedNitrogen: boolean, speech: Speech): string[] {
  const words = speech.wording.hunt;
  const hasLeak = hunt.holds.some(
    ({ verdict, part }) => verdict === 'leaks' && part.kind !== 'stub',
  );
  return [
    sayPlace(hunt, speech),
    words.finding[hunt.stub],
    ...(hasLeak ? [passedNitrogen ? words.pastValveLikely : words.pastValve] : []),
  ];
}

function sayPlace({ place }: LeakHunt, speech: Speech): string {
  const words = speech.wording.hunt.place;
  switch (place.kind) {
    case 'no_sections':
    case 'sensor_first':
      return words[place.kind];
    case 'found':
      return words.found({ name: place.name, chance: sayChance(place.chance) });
    case 'several':
      return words.several({ names: place.names.join(', '), chance: sayChance(place.chance) });
    case 'none_of_them':
      return words.none_of_them({ chance: sayChance(place.chance) });
    case 'undecided':
      return place.name === null
        ? words.undecided
        : words.likeliest({ name: place.name, chance: sayChance(place.chance) });
  }
}

/** The verdict of several sensors together, and whom it waits for. */
export function saySlowest(
  { verdict, waiting, finding, moreS }: SlowestVerdict,
  names: readonly string[],
  speech: Speech,
): string {
  const said = [`${speech.wording.verdict.names[verdict]}.`];
  return [
    ...said,
    ...sayFound(finding, names, speech),
    ...sayAwaited({ waiting, moreS }, names, speech),
  ].join(' ');
}

function sayFound(finding: readonly number[], names: readonly string[], speech: Speech): string[] {
  if (finding.length === 0) return [];
  return [asSentence(speech.wording.hunt.sensors.seenBy({ names: namesOf(finding, names) }))];
}

function sayAwaited(
  { waiting, moreS }: Pick<SlowestVerdict, 'waiting' | 'moreS'>,
  names: readonly string[],
  speech: Speech,
): string[] {
  const words = speech.wording.hunt.sensors;
  if (waiting.length === 0) return [];
  const awaited = namesOf(waiting, names);
  return [
    moreS === null || moreS === 0
      ? words.waits({ names: awaited })
      : words.waitsFor({ names: awaited, more: sayRoughDuration(moreS) }),
  ];
}

function sayFlow(rate: Estimate, speech: Speech): string {
  return sayBetween(
    rate,
    (value) => sayMagnitude(value, speech),
    (digits) => `${digits} Pa·m³/s`,
    speech,
  );
}
