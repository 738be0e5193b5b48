/** What the sensor sees from now on, by one tap: a hold begins anew there. */
import { useState } from 'preact/hooks';
import { marksToSee, partSeen, sectionNames, type SeenPart } from '../analysis/seen/seen-part.ts';
import { setMark } from '../live/set-mark.ts';
import { tell } from '../parts/notice.ts';
import { enterNow } from '../sheet/enter-now.ts';
import { presentS } from '../store/present-time.ts';
import { speech } from '../store/speech.ts';
import { sayPart } from '../words/say-hunt.ts';
import type { HuntProps } from './hunt-props.ts';

export function SeesNow({ followed, recording }: HuntProps) {
  const words = speech.value.wording.hunt;
  const [name, setName] = useState('');
  const present = partSeen(followed.marks.value, followed.entries.value, {
    fromS: Infinity,
    toS: Infinity,
  });
  const sections = sectionNames(followed.entries.value);
  const parts: SeenPart[] = [
    { kind: 'system' },
    { kind: 'stub' },
    ...sections.map((section) => ({ kind: 'section' as const, name: section })),
  ];
  const see = async (part: SeenPart) => {
    const elapsedS = presentS(recording, followed.latest.peek()?.elapsedS ?? 0, Date.now());
    for (const kind of marksToSee(part, followed.marks.peek())) {
      const marked = await tell(setMark(recording, kind, elapsedS, sayPart(part, speech.peek())));
      if (marked === null) return;
    }
    const seenSection = part.kind === 'section' ? part.name : '';
    await enterNow(followed, recording, { sensorSees: part.kind, seenSection });
  };
  const add = (event: Event) => {
    event.preventDefault();
    if (name.trim() === '') return;
    void see({ kind: 'section', name: name.trim() }).then(() => setName(''));
  };
  return (
    <section class="sees-now">
      <h2>{words.seesNow}</h2>
      <div class="row" role="group" aria-label={words.seesNow} data-testid="sees-now">
        {parts.map((part) => {
          const said = sayPart(part, speech.value);
          return (
            <button
              key={`${part.kind} ${said}`}
              type="button"
              aria-pressed={isPresent(part, present)}
              onClick={() => void see(part)}
            >
              {said}
            </button>
          );
        })}
      </div>
      {recording.open && (
        <form class="row" onSubmit={add}>
          <label>
            {words.another}{' '}
            <input
              name="section"
              maxLength={60}
              autoComplete="off"
              value={name}
              onInput={(event) => setName(event.currentTarget.value)}
            />
          </label>
          <button type="submit">{words.tap}</button>
        </form>
      )}
    </section>
  );
}

function isPresent(part: SeenPart, present: SeenPart): boolean {
  if (part.kind !== present.kind) return false;
  return part.kind !== 'section' || (present.kind === 'section' && part.name === present.name);
}
