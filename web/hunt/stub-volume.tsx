/** How much there is of sensor, hose and fittings beyond the valve that shuts them off. */
import { useState } from 'preact/hooks';
import { sheetSchema } from '../../protocol/sheet.ts';
import { enterNow } from '../sheet/enter-now.ts';
import { speech } from '../store/speech.ts';
import { numberFrom } from '../typed-in/typed-number.ts';
import { sayExactly } from '../words/say-number.ts';
import type { HuntProps } from './hunt-props.ts';

const ML_PER_M3 = 1e6;

export function StubVolume({ followed, recording }: HuntProps) {
  const words = speech.value.wording.hunt;
  const [text, setText] = useState(() => {
    const volumeM3 = followed.sheet.peek().stubVolumeM3;
    if (volumeM3 === null) return '';
    return sayExactly(Number((volumeM3 * ML_PER_M3).toPrecision(4)), speech.peek());
  });
  const [isWrong, setWrong] = useState(false);
  const enter = (event: Event) => {
    event.preventDefault();
    const typed = numberFrom(text);
    const read = sheetSchema.shape.stubVolumeM3.safeParse(
      typed === null ? null : typed / ML_PER_M3,
    );
    setWrong(!read.success);
    if (read.success) void enterNow(followed, recording, { stubVolumeM3: read.data });
  };
  return (
    <form class="row" onSubmit={enter}>
      <label>
        {words.stubVolume}{' '}
        <input
          class="short"
          name="stubVolume"
          inputMode="decimal"
          autoComplete="off"
          aria-invalid={isWrong}
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
      </label>
      <button type="submit">{words.enter}</button>
      {isWrong && (
        <p class="wrong" role="alert">
          {words.wrongVolume}
        </p>
      )}
    </form>
  );
}
