import type { Part, Rating } from '../../parts/part.ts';
import { ratingDimension } from '../../parts/rating-dimension.ts';
import { ratingsIn, type NamedRating } from '../../parts/ratings-in.ts';
import type { Design } from '../../project/design.ts';
import type { Dimension } from '../../units/dimension.ts';
import { differ } from './resolution.ts';

/** A rating of a part from a part file that is not what it was: the file has changed, or the project names another part. */
export interface RatingChange {
  /** Key of the project file that names the part. */
  readonly place: string;
  readonly part: { readonly before?: string; readonly after?: string };
  readonly key: string;
  readonly of?: NamedRating['of'];
  readonly dimension: Dimension;
  readonly before?: Rating;
  readonly after?: Rating;
}

/**
 * Ratings of named parts that two designs have differently. Ratings that the project itself states are inputs, and not among them.
 *
 * @param before    one design
 * @param after     the other
 * @param projects  paths of their project files
 */
export function ratingChanges({
  before,
  after,
  projects,
}: {
  before: Design;
  after: Design;
  projects: readonly string[];
}): readonly RatingChange[] {
  const now = partsAt(after);
  return Object.entries(partsAt(before)).flatMap(([place, old]) => changesOf({ place, old, now: now[place], projects }));
}

function partsAt({ switches, gates, tank, chokes }: Design): Readonly<Record<string, Part | undefined>> {
  return {
    'chokes.part': chokes.choke,
    'tank.bank.part': tank.bank.capacitor,
    'switches.part': switches.mosfet,
    'gates.clamp': gates.clamp,
    'gates.crossDiode': gates.crossDiode,
  };
}

function changesOf({
  place,
  old,
  now,
  projects,
}: {
  place: string;
  old: Part | undefined;
  now: Part | undefined;
  projects: readonly string[];
}): readonly RatingChange[] {
  // a part that comes or goes altogether is an input
  if (old === undefined || now === undefined) return [];
  const before = new Map(filed(old, projects).map((named) => [identity(named), named]));
  const after = new Map(filed(now, projects).map((named) => [identity(named), named]));
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((id): RatingChange[] => {
    const [was, is] = [before.get(id), after.get(id)];
    const { key, of } = (is ?? was)!;
    if (was !== undefined && is !== undefined && !differ(was.rating.value, is.rating.value)) return [];
    return [
      {
        place,
        part: { before: old.name, after: now.name },
        key,
        dimension: ratingDimension({ kind: now.kind, key }),
        ...(of === undefined ? {} : { of }),
        ...(was === undefined ? {} : { before: was.rating }),
        ...(is === undefined ? {} : { after: is.rating }),
      },
    ];
  });
}

/** Ratings that stand in a part file. */
function filed(part: Part, projects: readonly string[]): readonly NamedRating[] {
  return ratingsIn(part).filter(({ rating }) => !projects.includes(rating.where.path));
}

function identity({ key, of }: NamedRating): string {
  return `${key} ${JSON.stringify(of ?? null)}`;
}
