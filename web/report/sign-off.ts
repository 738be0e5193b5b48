/** Who answers for it, as entered, and room for signatures; a rehearsal has nothing to sign. */
import { isOfSameStretch } from '../../protocol/sign-off.ts';
import { sayDuration } from '../words/say-duration.ts';
import { isSimulated } from '../../protocol/recording.ts';
import { sayOffset, sayWallTime } from '../words/say-wall-time.ts';
import { type Block, factTable, paragraph, section, type Section } from './report-document.ts';
import type { Report } from './report-model.ts';

/** While somebody signs, a sensor goes on; that much nobody has to be told of. A setting of ours, s. */
const GONE_ON_S = 120;

export function signOffSection(report: Report): Section {
  const { signOff, speech, offsetMinutes } = report;
  const words = speech.wording.report;
  if (isSimulated(report.recording))
    return section(words.signOff, paragraph(words.noSignOff, 'caution'));
  const cells = words.signColumns.map(() => '');
  const byHand: Block = {
    kind: 'sign_off',
    columns: words.signColumns,
    rows: words.signers.map((signer) => ({ signer, cells })),
  };
  if (signOff === null) return section(words.signOff, byHand);
  const { name, licence, remark, quoted, softwareVersion, atMs } = signOff;
  const at = `${sayWallTime(atMs, offsetMinutes, speech)} (${sayOffset(offsetMinutes)})`;
  const facts = [
    { name: words.signedBy, value: name },
    { name: words.licence, value: licence },
    { name: words.signedAt, value: at },
    { name: words.signRemark, value: remark },
    { name: words.signedFor, value: quoted },
    { name: words.drawnThen, value: `Ebbline ${softwareVersion}` },
  ];
  const last = Math.max(...report.sensors.map(({ latestS }) => latestS), 0);
  const isGoneOn = signOff.lastS !== null && last > signOff.lastS + GONE_ON_S;
  const changed = isOfSameStretch(signOff, report.job)
    ? isGoneOn
      ? words.signedBefore({ length: sayDuration(last - (signOff.lastS ?? last)) })
      : ''
    : words.signedOther;
  return section(
    words.signOff,
    paragraph(changed, 'caution'),
    factTable(facts.filter(({ value }) => value !== '')),
    paragraph(words.signedHow, 'quiet'),
    paragraph(report.recording.takenFrom === null ? '' : words.signedThere, 'caution'),
    byHand,
  );
}
