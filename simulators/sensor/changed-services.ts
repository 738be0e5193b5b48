/** Sensors whose services differ from what the profile asks for. */
import { SERVICE_UUID } from '../../protocol/profile.ts';
import type { CharacteristicDefinition, ServiceDefinition } from './service-definition.ts';
import type { VirtualSensorOptions } from './virtual-sensor.ts';

/** Of the profile's service nothing but its name. */
export function emptied(service: ServiceDefinition): ServiceDefinition {
  return service.uuid === SERVICE_UUID ? { ...service, characteristics: [] } : service;
}

export function withoutService(uuid: string): VirtualSensorOptions {
  return { deviations: { services: (all) => all.filter((service) => service.uuid !== uuid) } };
}

/** Without these characteristics. */
export function lacking(...uuids: string[]): VirtualSensorOptions {
  const rest = ({ uuid, characteristics }: ServiceDefinition): ServiceDefinition => ({
    uuid,
    characteristics: characteristics.filter((it) => !uuids.includes(it.uuid)),
  });
  return { deviations: { services: (all) => all.map(rest) } };
}

/** With another characteristic in place of this one. */
export function changing(
  uuid: string,
  change: (right: CharacteristicDefinition) => CharacteristicDefinition,
): VirtualSensorOptions {
  const changed = (service: ServiceDefinition): ServiceDefinition => ({
    uuid: service.uuid,
    characteristics: service.characteristics.map((it) => (it.uuid === uuid ? change(it) : it)),
  });
  return { deviations: { services: (all) => all.map(changed) } };
}
