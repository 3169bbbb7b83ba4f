import type { Part } from '../parts/part.ts';
import { ratingDimension } from '../parts/rating-dimension.ts';
import { ratingsIn } from '../parts/ratings-in.ts';
import type { Diagnostic } from '../source/diagnostic.ts';
import { formatQuantity } from '../units/format-quantity.ts';

/** Ratings that the form shows: the wanted one, and that there are others. */
const shown = 2;

/**
 * Why a rating of a part that is named cannot be varied, and the form to write in place of the name.
 *
 * @param path    of the part's name in the project file, as it is told
 * @param name    of the part
 * @param part    the part, where it is known
 * @param wanted  the rating, as its key is written; empty where none was asked for
 */
export function namedPartProblem({
  path,
  name,
  part,
  wanted,
}: {
  path: string;
  name: string;
  part: Part | undefined;
  wanted: string;
}): Diagnostic {
  const key = path.slice(path.lastIndexOf('.') + 1);
  const ratings = part === undefined ? [] : ratingsIn(part).filter(({ of }) => of === undefined);
  const first = ratings.find((rating) => rating.key === wanted) ?? ratings[0];
  const told = [first, ...ratings.filter((rating) => rating !== first)].slice(0, shown).flatMap((rating) => {
    if (rating === undefined || part === undefined) return [];
    const dimension = ratingDimension({ kind: part.kind, key: rating.key });
    return [`${rating.key}: ${formatQuantity({ value: rating.rating.value, dimension, digits: 4 })}`];
  });
  const form = `${key}: {${[...told, '…'].join(', ')}}`;
  const others = `with every key of its part file (tankproof parts show ${name}; what is left out is not assessed)`;
  const then = first === undefined ? '' : `, and vary ${path}.${first.key}`;
  return {
    id: 'named-part',
    message: `\`${path}\` names a part (${name}), whose ratings stand in its own file`,
    help: `in place of \`${key}: ${name}\` write \`${form}\`, ${others}${then}`,
  };
}
