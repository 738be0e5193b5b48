import { describeRadio } from './describe-radio.ts';

describeRadio('@abandonware/noble');
