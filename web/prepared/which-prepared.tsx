/** Which prepared sheet is being filled in: another one, or a new one, is a choice away. */
import { useEffect } from 'preact/hooks';
import { panel } from '../parts/panels.ts';
import { speech } from '../store/speech.ts';
import { sayPrepared } from '../words/say-prepared.ts';
import { preparedSheets } from './prepared-list.ts';
import { findAtHand, preparedAtHand, takeToHand } from './sheet-at-hand.ts';

const NEW = 'new';

interface WhichPreparedProps {
  /** From a panel of its own back to the plain fields. */
  readonly leadsToFields?: boolean;
}

export function WhichPrepared({ leadsToFields = false }: WhichPreparedProps) {
  const words = speech.value.wording.prepared;
  useEffect(() => void findAtHand(), []);
  const sheets = preparedSheets.value;
  return (
    <div class="form" data-testid="which-prepared">
      <label class="two-thirds">
        {words.onSheet}
        <select
          name="prepared-sheet"
          value={preparedAtHand.value ?? NEW}
          onChange={({ currentTarget: { value } }) => {
            const chosen = sheets.find(({ prepared }) => String(prepared) === value);
            takeToHand(chosen ?? { prepared: null, fields: {} });
          }}
        >
          {sheets.map((sheet) => (
            <option key={sheet.prepared} value={sheet.prepared}>
              {sayPrepared(sheet, speech.value)}
            </option>
          ))}
          <option value={NEW}>{words.onNew}</option>
        </select>
      </label>
      {leadsToFields && (
        <button
          type="button"
          class="beside"
          data-testid="to-prepared-sheet"
          onClick={() => (panel.value = { prepared: 'sheet' })}
        >
          {words.toSheet}
        </button>
      )}
    </div>
  );
}
