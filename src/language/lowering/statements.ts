/** Lowers statements about what is aboard: those of the boat's files, and those that an option adds. */
import type { Additions } from '../../vessel/options/model.js';
import { bowToStern } from '../../vessel/zones.js';
import type { Exposure } from '../../vessel/model.js';
import type * as ast from '../generated/ast.js';
import {
  lowerDay,
  lowerDevice,
  lowerMode,
  lowerNeed,
  lowerNegative,
  lowerPreference,
  lowerRun,
  lowerView,
  lowerZone,
} from './aboard.js';
import type { PlaceTable } from './places.js';
import { lowerBackbone, lowerFeed, lowerLink } from './wiring.js';

export type Aboard = Additions;

type Lists = { [List in keyof Aboard]: Aboard[List][number][] };

export function lowerAboard(
  statements: Iterable<ast.Addable>,
  exposures: ReadonlyMap<string, Exposure>,
  places: PlaceTable,
): Aboard {
  const aboard: Lists = {
    zones: [],
    runs: [],
    devices: [],
    links: [],
    feeds: [],
    backbones: [],
    needs: [],
    modes: [],
    days: [],
    views: [],
    negatives: [],
    preferences: [],
  };
  const push = <T>(list: T[], item: T | undefined): void => {
    if (item !== undefined) list.push(item);
  };
  for (const statement of statements) {
    switch (statement.$type) {
      case 'ZoneDecl':
        aboard.zones.push(lowerZone(statement, exposures, places));
        break;
      case 'RunDecl':
        push(aboard.runs, lowerRun(statement, places));
        break;
      case 'DeviceDecl':
        aboard.devices.push(lowerDevice(statement, places));
        break;
      case 'LinkDecl':
        aboard.links.push(lowerLink(statement, places));
        break;
      case 'FeedDecl':
        aboard.feeds.push(lowerFeed(statement, places));
        break;
      case 'BackboneDecl':
        aboard.backbones.push(lowerBackbone(statement, places));
        break;
      case 'NeedDecl':
        push(aboard.needs, lowerNeed(statement, places));
        break;
      case 'ModeDecl':
        aboard.modes.push(lowerMode(statement, places));
        break;
      case 'DayDecl':
        aboard.days.push(lowerDay(statement, places));
        break;
      case 'ViewDecl':
        aboard.views.push(lowerView(statement, places));
        break;
      case 'NegativeDecl':
        aboard.negatives.push(lowerNegative(statement, places));
        break;
      case 'PreferDecl':
        push(aboard.preferences, lowerPreference(statement, places));
        break;
    }
  }
  return { ...aboard, zones: bowToStern(aboard.zones) };
}
