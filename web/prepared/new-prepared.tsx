/** A new prepared sheet: what it begins with, said in full, and then its fields. */
import { useEffect, useState } from 'preact/hooks';
import type { JobCard } from '../../protocol/job-card.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { sayCarriedFields, sayJobPlace } from '../words/say-job.ts';
import { PreparedForm } from './prepared-form.tsx';
import { fieldsAtHand, takeToHand, turnAtHand } from './sheet-at-hand.ts';
import { EQUIPMENT, type Equipment, fieldsFrom, jobsToStartFrom } from './start-from.ts';

const NOTHING = '';
const keyOf = ({ recordingId, beginMark }: JobCard) => `${recordingId}-${beginMark}`;

export function NewPrepared({ done }: { readonly done: () => void }) {
  const words = speech.value.wording.prepared;
  const [jobs, setJobs] = useState<readonly JobCard[]>([]);
  const [from, setFrom] = useState(NOTHING);
  const [equipment, setEquipment] = useState<Equipment>('other');
  /** Fields that are typed in must not be lost to an answer that comes late. */
  const [isReady, setReady] = useState(false);
  const begin = async (job: JobCard | undefined, wanted: Equipment) => {
    setFrom(job === undefined ? NOTHING : keyOf(job));
    setEquipment(wanted);
    setReady(false);
    const fields = job === undefined ? {} : await fieldsFrom(job, wanted);
    takeToHand({ prepared: null, fields });
    setReady(true);
  };
  useEffect(() => {
    // The gear of the latest job is offered: mostly it is the same van.
    void jobsToStartFrom().then((offered) => {
      setJobs(offered);
      return begin(offered[0], 'other');
    });
  }, []);
  const chosen = jobs.find((job) => keyOf(job) === from);
  return (
    <>
      {jobs.length > 0 && (
        <div class="form">
          <label class="wide">
            {words.startFrom}
            <select
              name="start-from"
              value={from}
              onChange={({ currentTarget }) => {
                const job = jobs.find((one) => keyOf(one) === currentTarget.value);
                void begin(job, equipment);
              }}
            >
              <option value={NOTHING}>{words.fromNothing}</option>
              {jobs.map((job) => (
                <option key={keyOf(job)} value={keyOf(job)}>
                  {sayJobPlace(job, speech.value)}
                </option>
              ))}
            </select>
          </label>
          {chosen !== undefined && (
            <div class="wide">
              <PickOne
                legend={words.which}
                name="equipment-of"
                options={EQUIPMENT}
                chosen={equipment}
                label={(one) => words.equipment[one]}
                pick={(one) => void begin(chosen, one)}
              />
            </div>
          )}
        </div>
      )}
      {isReady && (
        <>
          <p class="quiet" data-testid="carried-fields">
            {sayCarriedFields(fieldsAtHand.value, speech.value)}
          </p>
          <PreparedForm key={turnAtHand.value} done={done} />
        </>
      )}
    </>
  );
}
