import { describeVirtualSensor } from './describe-virtual-sensor.ts';

describeVirtualSensor('@stoprocent/bleno');
