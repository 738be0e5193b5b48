import { describeRadio } from './describe-radio.ts';

describeRadio('@stoprocent/noble');
