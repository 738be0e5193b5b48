/** Every scenario that can be rehearsed, in the order in which they are offered. */
import { BRIDGE_END_PHARMACY } from './bridge-end-pharmacy.ts';
import { CHAPEL_HILL_SURGERY } from './chapel-hill-surgery.ts';
import { COPPER_ROW_WORKSHOP } from './copper-row-workshop.ts';
import { FERN_COURT_LAUNDRY } from './fern-court-laundry.ts';
import { GUILDHALL_ANNEX } from './guildhall-annex.ts';
import { HARBOUR_LANE_BOOKSHOP } from './harbour-lane-bookshop.ts';
import { LANTERN_COURT_LIBRARY } from './lantern-court-library.ts';
import { LINDENS_DENTAL_PRACTICE } from './lindens-dental-practice.ts';
import { MEADOW_VIEW_NURSERY } from './meadow-view-nursery.ts';
import { MILL_STREET_BARBER } from './mill-street-barber.ts';
import { NORTH_QUAY_BOATHOUSE } from './north-quay-boathouse.ts';
import { OBSERVATORY_LANE_OFFICE } from './observatory-lane-office.ts';
import { ORCHARD_CLOSE_FLAT } from './orchard-close-flat.ts';
import { PRIORY_STREET_GYMNASIUM } from './priory-street-gymnasium.ts';
import { QUARRY_ROAD_BAKERY } from './quarry-road-bakery.ts';
import { ROPEWALK_PRINT_SHOP } from './ropewalk-print-shop.ts';
import { SADDLERS_YARD_CAFE } from './saddlers-yard-cafe.ts';
import { scenarioSchema } from './scenario.ts';
import type { Scenario } from './scenario.ts';
import { STATION_ROAD_FLORIST } from './station-road-florist.ts';
import { SUMMIT_ROAD_REFUGE } from './summit-road-refuge.ts';
import { TANNERY_LANE_STUDIO } from './tannery-lane-studio.ts';
import { TOLLGATE_COTTAGE } from './tollgate-cottage.ts';
import { VINEYARD_PAVILION } from './vineyard-pavilion.ts';
import { WEIR_STREET_ARCHIVE } from './weir-street-archive.ts';

export const ALL_SCENARIOS: readonly Scenario[] = [
  LINDENS_DENTAL_PRACTICE,
  WEIR_STREET_ARCHIVE,
  QUARRY_ROAD_BAKERY,
  CHAPEL_HILL_SURGERY,
  STATION_ROAD_FLORIST,
  MILL_STREET_BARBER,
  HARBOUR_LANE_BOOKSHOP,
  ORCHARD_CLOSE_FLAT,
  BRIDGE_END_PHARMACY,
  MEADOW_VIEW_NURSERY,
  GUILDHALL_ANNEX,
  FERN_COURT_LAUNDRY,
  LANTERN_COURT_LIBRARY,
  COPPER_ROW_WORKSHOP,
  TOLLGATE_COTTAGE,
  TANNERY_LANE_STUDIO,
  SADDLERS_YARD_CAFE,
  OBSERVATORY_LANE_OFFICE,
  NORTH_QUAY_BOATHOUSE,
  VINEYARD_PAVILION,
  PRIORY_STREET_GYMNASIUM,
  SUMMIT_ROAD_REFUGE,
  ROPEWALK_PRINT_SHOP,
].map((scenario) => scenarioSchema.parse(scenario));
