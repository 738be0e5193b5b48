/**
 * Everything that can go wrong in an expected way: a code, what it means and what to do about it.
 * The README's table of problems is checked against this one.
 */

interface Problem {
  readonly meaning: string;
  readonly remedy: string;
}

const TABLE = {
  no_bluetooth: {
    meaning: 'This computer offers no Bluetooth to programs.',
    remedy:
      'Plug in a Bluetooth 4.0 or later adapter, or use a computer that has one. A rehearsal needs none.',
  },
  no_adapter: {
    meaning: 'There is no Bluetooth adapter.',
    remedy: 'Plug in a Bluetooth adapter. It is looked for again every few seconds.',
  },
  adapter_off: {
    meaning: 'The Bluetooth adapter is switched off.',
    remedy: 'Switch Bluetooth on in the settings of this computer.',
  },
  no_permission: {
    meaning: 'This program may not use Bluetooth.',
    remedy:
      'Linux: run "sudo setcap cap_net_raw+eip $(readlink -f $(which node))" once. ' +
      'macOS: allow the terminal under Privacy & Security, Bluetooth. ' +
      'Windows: allow desktop apps under Privacy, Radios.',
  },
  no_radio_library: {
    meaning: 'Neither Bluetooth library could be loaded on this computer.',
    remedy:
      'Delete the folder node_modules and start again; the first lines then say what is missing.',
  },
  radio_restarted: {
    meaning: 'The Bluetooth part stopped answering and was started again.',
    remedy: 'Nothing to do. If it happens often, unplug the adapter and plug it in again.',
  },
  sensor_lost: {
    meaning: 'The sensor is out of reach or switched off.',
    remedy: 'Bring the laptop nearer or wake the sensor. It connects again by itself.',
  },
  sensor_silent: {
    meaning: 'The sensor is connected but sends nothing.',
    remedy: 'Nothing to do for now: the connection is made anew after a few seconds.',
  },
  sensor_refuses: {
    meaning: 'The sensor answers but refuses to send its readings.',
    remedy:
      'Disconnect it from any phone or other program, then switch it off and on. It is asked again about once a minute.',
  },
  sensor_not_chosen: {
    meaning:
      'A pressure sensor that does not speak the profile is in reach. Barometers look the same.',
    remedy: 'If it is the vacuum sensor, give it a name under “Sensors”: from then on it is heard.',
  },
  standard_sensor: {
    meaning:
      'This sensor speaks Bluetooth’s general pressure service: what the radio loses of it stays lost, and its times are those of arrival.',
    remedy: 'Nothing to do. Keep the laptop near.',
  },
  simulated_sensor: {
    meaning: 'A computer plays this sensor: its readings are simulated.',
    remedy: 'Right for a class. Such a record is no proof of any job, and its report says so.',
  },
  sensor_not_understood: {
    meaning: 'The sensor sends something that does not follow the profile.',
    remedy:
      'Update the sensor’s firmware, or ask its maker which version of the profile it speaks.',
  },
  port_taken: {
    meaning: 'Another program already uses this port.',
    remedy: 'Choose another with: npm start -- --port 4181',
  },
  share_port_taken: {
    meaning: 'Another program already uses the port for other screens.',
    remedy: 'Choose another with: npm start -- --share --share-port 4444',
  },
  data_folder_unwritable: {
    meaning: 'The data folder cannot be written.',
    remedy: 'Make it writable, free some space, or choose another with: npm start -- --data FOLDER',
  },
  record_from_newer_version: {
    meaning: 'The record was written by a newer version of this program.',
    remedy:
      'Start the newer version, or choose another data folder with: npm start -- --data FOLDER',
  },
  record_from_older_version: {
    meaning: 'The record was written by an older version of this program.',
    remedy: 'Run npm start once: it keeps a copy and brings the record up to date. Then try again.',
  },
  record_damaged: {
    meaning: 'The record in the data folder is damaged.',
    remedy:
      'Stop and run npm start: it sets the damaged files aside and saves what can be read into a new record.',
  },
  record_salvaged: {
    meaning:
      'The record was damaged. What could be read of it is in a new one; the damaged files are set aside.',
    remedy:
      'Keep the folder with the damaged files until you have seen what is missing. Ask yourself whether this disk is failing, and make a copy.',
  },
  record_not_salvaged: {
    meaning: 'The record is damaged, and no new one could be made of it. Nothing was changed.',
    remedy:
      'Free as much space as the record has, or choose another data folder with: npm start -- --data FOLDER',
  },
  record_in_use: {
    meaning: 'Another Ebbline already keeps its record in this data folder.',
    remedy: 'Use that one, or choose another data folder with: npm start -- --data FOLDER',
  },
  write_failed: {
    meaning: 'Readings could not be written to the record.',
    remedy:
      'Free some space on the disk. What could not be written is held in memory and tried again; it is lost if the program ends before.',
  },
  write_stalled: {
    meaning: 'The disk does not answer: what is measured waits in memory to be written.',
    remedy:
      'Wait, and don’t end the program: what waits is written as soon as the disk goes on, in order. A large file that is being read in does the same for some seconds; if it lasts, see whether the disk is failing.',
  },
  readings_refused: {
    meaning: 'For hours nothing could be written to the record, and no more can be held in memory.',
    remedy:
      'Free some space on the disk now. New readings are not kept until then; a sensor with a memory may give them again after the next start.',
  },
  backup_failed: {
    meaning: 'The record could not be copied, and no half a copy was left.',
    remedy:
      'Free some space, or choose another place or name for the copy. The record is as it was.',
  },
  bad_backup: {
    meaning: 'This file is no record that can be restored, and nothing of it was.',
    remedy:
      'Choose a file that “Back up” or backup-record has written, and take it anew if it was cut short.',
  },
  backup_too_large: {
    meaning: 'The file is larger than 8 GB, and nothing of it was restored.',
    remedy:
      'Stop the bridge and restore it at a terminal, which knows no limit: npm run restore-record -- --from FILE',
  },
  bad_request: {
    meaning: 'The request is not of the expected form.',
    remedy:
      'Reload the page. If you wrote the request yourself, the message says which field is wrong.',
  },
  not_found: {
    meaning: 'There is nothing under this address.',
    remedy: 'Go back to the start page.',
  },
  no_rehearsal: {
    meaning: 'No rehearsal is running.',
    remedy: 'Start one first.',
  },
  no_call: {
    meaning: 'Nobody has said yet what it is.',
    remedy: 'Make the call first, or ask for the cause without one.',
  },
  already_called: {
    meaning: 'The call for this rehearsal has been made.',
    remedy: 'Go on to the reveal.',
  },
  already_revealed: {
    meaning: 'The cause of this rehearsal has been revealed.',
    remedy: 'Start another one.',
  },
  no_effect: {
    meaning: 'This changes nothing: it stands so already, or this rig lacks the part.',
    remedy: 'Nothing to do. No mark was made.',
  },
  unknown_scenario: {
    meaning: 'There is no rehearsal of that name.',
    remedy: 'Choose one from the list.',
  },
  recording_closed: {
    meaning: 'This recording has ended.',
    remedy: 'Marks and entries go to a recording that is still running.',
  },
  job_running: {
    meaning: 'This job is still running.',
    remedy: 'It is over when its recording ends, or when the next job begins.',
  },
  job_changed: {
    meaning: 'Where this job begins has changed since you looked at it.',
    remedy: 'Look at it as it is now, then sign.',
  },
  nothing_to_sign: {
    meaning: 'A rehearsal is not signed: it proves nothing of any job.',
    remedy: 'Nothing to do.',
  },
  sheet_used: {
    meaning: 'A job has taken this prepared sheet over already.',
    remedy: 'Go on with the sheet of that job, or prepare another one.',
  },
  too_many_prepared: {
    meaning: 'As many prepared sheets as can be kept wait for their job already.',
    remedy: 'Discard one that is not needed any more, then keep this one. Nothing of it was kept.',
  },
  job_not_archived: {
    meaning: 'This job is not in the archive.',
    remedy: 'Archive it first: what is deleted for good is gone, and only an archived job can be.',
  },
  bad_readings_file: {
    meaning: 'The file cannot be read in, and nothing of it was recorded.',
    remedy: 'Put the named line right and read the file in again.',
  },
  readings_file_too_large: {
    meaning: 'The file is larger than 128 MB, and nothing of it was recorded.',
    remedy: 'Split it, or keep every second row: a day at ten readings a second fits.',
  },
  too_many_files: {
    meaning: 'As many files as there is room for are being read in, restored or copied already.',
    remedy: 'Wait until they are done, then try again. Nothing of this one was kept.',
  },
  request_stalled: {
    meaning: 'The rest of what was to be sent did not come, and nothing of it was kept.',
    remedy: 'Try again. A program of your own has to send on without long pauses.',
  },
  nothing_typed_in: {
    meaning: 'No typed-in recording is running.',
    remedy: 'Type in a reading: the recording begins with it.',
  },
  before_recording: {
    meaning: 'This moment lies before the typed-in recording began.',
    remedy: 'End that recording first, and begin the next one with its earliest reading.',
  },
  foreign_page: {
    meaning: 'The request comes from a page of another address.',
    remedy:
      'Open the page under an address that the bridge says: on the laptop as its terminal prints it, elsewhere as “Second screen” shows it.',
  },
  sharing_off: {
    meaning: 'The page is not shared with other screens.',
    remedy: 'Start with: npm start -- --share',
  },
  not_paired: {
    meaning: 'This screen is not paired with the bridge, or no longer.',
    remedy: 'On the laptop open Menu, “Second screen”, and pair this screen by the code there.',
  },
  not_allowed: {
    meaning: 'This screen was not paired for that.',
    remedy: 'Do it on the laptop, or pair this screen anew to assist where that is enough.',
  },
  no_need_to_pair: {
    meaning: 'This is the laptop itself: it may do everything, and is paired with nobody.',
    remedy: 'Open the shared address on the other screen.',
  },
  wrong_code: {
    meaning: 'This code is good for nothing: mistyped, used already, or older than five minutes.',
    remedy: 'Have the laptop show a new code, and use that one.',
  },
  too_many_tries: {
    meaning: 'Too many wrong codes were tried.',
    remedy: 'Wait two minutes for each further try, and scan the code rather than typing it.',
  },
  too_many_requests: {
    meaning: 'This screen asks for too much at once.',
    remedy: 'Wait a minute. Close windows that show the same.',
  },
  too_many_screens: {
    meaning: 'As many screens as can be paired are paired already.',
    remedy: 'On the laptop open Menu, “Second screen”, and unpair those that are not needed.',
  },
} as const satisfies Record<string, Problem>;

export type ProblemCode = keyof typeof TABLE;

export const PROBLEMS: Readonly<Record<ProblemCode, Problem>> = TABLE;

function isProblemCode(text: string): text is ProblemCode {
  return Object.hasOwn(TABLE, text);
}

export const PROBLEM_CODES: readonly ProblemCode[] = Object.keys(TABLE).filter(isProblemCode);

/** An expected failure on its way to the person who can do something about it. */
export class ProblemError extends Error {
  override readonly name = 'ProblemError';
  readonly code: ProblemCode;
  /** What exactly failed, and where: a path, a port, a field. */
  readonly detail: string;

  constructor(code: ProblemCode, detail = '', options?: ErrorOptions) {
    super(
      detail === '' ? PROBLEMS[code].meaning : `${PROBLEMS[code].meaning} (${detail})`,
      options,
    );
    this.code = code;
    this.detail = detail;
  }
}
