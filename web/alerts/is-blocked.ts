/** Whether somebody wants to hear alerts and the browser lets nothing be heard. */
import { computed } from '@preact/signals';
import { alertChoices } from './alert-choices.ts';
import { soundState } from './chime.ts';

export const isBlocked = computed(
  () => alertChoices.value.sound !== 'off' && soundState.value === 'blocked',
);
