/** How much is connected, both ways where a valve is not known, and a map of the sections to look at. */
import type { Join } from '../../protocol/rig-facts.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { speech } from '../store/speech.ts';
import { sayLitres } from '../words/say-rig-facts.ts';
import { connectedVolume } from './connected-volume.ts';
import { sectionVolume, type VolumeRange } from './internal-volume.ts';

interface VolumeResultProps {
  readonly sheet: Sheet;
  readonly takeOver: (volumeM3: number) => void;
}

export function VolumeResult({ sheet, takeOver }: VolumeResultProps) {
  const words = speech.value.wording.planning.volume;
  const { sure, ifOpen, unknownJoins } = connectedVolume(sheet);
  const { volumeM3 } = sheet;
  const onSheet =
    volumeM3 === null
      ? words.notOnSheet
      : words.onSheet({ litres: sayLitres(volumeM3, speech.value) });
  if (sure.volume === null && ifOpen?.volume == null) {
    return (
      <p data-testid="volume-nothing">
        {words.nothing} {onSheet}
      </p>
    );
  }
  const answers = [
    { name: words.connected, ...sure },
    ...(ifOpen === null ? [] : [{ name: words.ifOpen, ...ifOpen }]),
  ];
  return (
    <section class="rig-result" data-testid="volume-result">
      <dl>
        {answers.map(({ name, volume }) => (
          <Answer key={name} name={name} volume={volume} />
        ))}
      </dl>
      <SectionMap sheet={sheet} reached={sure.names} perhaps={ifOpen?.names ?? []} />
      {(ifOpen ?? sure).uncounted.length > 0 && (
        <p>{words.uncounted({ names: (ifOpen ?? sure).uncounted.join(', ') })}</p>
      )}
      {unknownJoins.length > 0 && (
        <p>{words.bothWays({ joins: unknownJoins.map((join) => sayEnds(join)).join('; ') })}</p>
      )}
      <p>{onSheet}</p>
      <div class="row">
        {answers.map(
          ({ name, volume }) =>
            volume !== null && (
              <button
                key={name}
                type="button"
                data-testid="take-volume"
                onClick={() => takeOver(Number(volume.estimateM3.toPrecision(4)))}
              >
                {words.takeOver({ litres: sayLitres(volume.estimateM3, speech.value) })}
              </button>
            ),
        )}
      </div>
    </section>
  );
}

function Answer({ name, volume }: { readonly name: string; readonly volume: VolumeRange | null }) {
  const litres = (m3: number) => sayLitres(m3, speech.value);
  if (volume === null) return null;
  const { lowM3, estimateM3, highM3 } = volume;
  const range = { estimate: litres(estimateM3), low: litres(lowM3), high: litres(highM3) };
  return (
    <>
      <dt>{name}</dt>
      <dd>{speech.value.wording.planning.volume.range(range)}</dd>
    </>
  );
}

interface SectionMapProps {
  readonly sheet: Sheet;
  readonly reached: readonly string[];
  readonly perhaps: readonly string[];
}

/** Connected ones ruled in full, shut off ones dotted, unknown ones dashed; each says it in words as well. */
function SectionMap({ sheet, reached, perhaps }: SectionMapProps) {
  const words = speech.value.wording.planning.volume;
  if (sheet.sections.length < 2) return null;
  return (
    <div class="section-map" aria-label={words.map} role="group">
      <ul>
        {sheet.sections.map((section) => {
          const volume = sectionVolume(section, sheet);
          const how = reached.includes(section.name)
            ? 'reached'
            : perhaps.includes(section.name)
              ? 'perhaps'
              : 'shut';
          return (
            <li key={section.name} class={how}>
              <b>{section.name}</b>
              {volume !== null && <span>{sayLitres(volume.estimateM3, speech.value)} L</span>}
              {section.hoseHere && <span>{words.hoseHere}</span>}
            </li>
          );
        })}
      </ul>
      <ul>
        {sheet.joins.map((join, at) => (
          <li key={at} class={`join ${join.state}`}>
            <i aria-hidden="true" />
            <span>
              {sayEnds(join)}: <b>{words.states[join.state]}</b>
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** 'service valve, Line set – Outdoor unit'. */
function sayEnds({ kind, between: [one, other] }: Join): string {
  return `${speech.value.wording.planning.volume.joinKinds[kind]}, ${one} – ${other}`;
}
