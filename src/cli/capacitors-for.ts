import type { Capacitor } from '../parts/part.ts';
import type { Design } from '../project/design.ts';
import { InputError } from '../source/diagnostic.ts';
import { didYouMeanHelp } from '../source/did-you-mean.ts';
import type { Stock } from '../studies/drawer.ts';
import { partsOnShelf } from './parts-shelf.ts';
import { wholeOption } from './quantity-range.ts';

/** Most capacitors of one part that a drawer is believed to hold. */
const mostInDrawer = 10_000;

/** Where capacitors are looked for. */
interface Shelf {
  readonly design: Design;
  /** Of the project file. */
  readonly path: string;
  readonly partsFolders: readonly string[];
  readonly root: string;
}

/** Every capacitor that the project could name, its own first. */
function everyCapacitor({ design, path, partsFolders, root }: Shelf): readonly Capacitor[] {
  const own = design.tank.bank.capacitor;
  const shelf = partsOnShelf({ root, folders: partsFolders, kind: 'capacitors', beside: path });
  const others = shelf.flatMap(({ part }) => (part.kind === 'capacitors' && part.name !== own.name ? [part] : []));
  return [own, ...others];
}

/**
 * The capacitors that a search looks at.
 *
 * @param names  of parts; all where none is named
 * @param kind   text that the dielectric contains or the name begins with
 * Errors: InputError where there is no such part.
 */
export function capacitorsFor({
  names,
  kind,
  ...shelf
}: Shelf & { names: readonly string[]; kind: string | undefined }): readonly Capacitor[] {
  const all = everyCapacitor(shelf);
  const named = names.length === 0 ? all : [...new Set(names)].map((name) => namedIn({ option: '--part', name, all }));
  if (kind === undefined) return named;
  const wanted = kind.toLowerCase();
  const found = named.filter(
    ({ name, dielectric = '' }) => name.toLowerCase().startsWith(wanted) || dielectric.toLowerCase().includes(wanted),
  );
  if (wanted !== '' && found.length > 0) return found;
  const dielectrics = [...new Set(all.flatMap(({ dielectric }) => dielectric ?? []))];
  const help = `a dielectric (${dielectrics.join(', ')}) or how names begin, such as pp-foil`;
  throw new InputError([{ id: 'unknown-kind', message: `--kind: no capacitor is of the kind "${kind}"`, help }]);
}

function namedIn({ option, name, all }: { option: string; name: string; all: readonly Capacitor[] }): Capacitor {
  const found = all.find((part) => part.name === name);
  if (found !== undefined) return found;
  const help = didYouMeanHelp({ word: name, names: all.map((part) => part.name) }) ?? 'tankproof parts list --kind capacitors';
  throw new InputError([{ id: 'unknown-part', message: `${option}: there is no capacitor "${name}"`, help }]);
}

/**
 * What is in the drawer, from `name=count,name=count`.
 *
 * Errors: InputError where a piece is no such pair, a part is not known or named twice.
 */
export function stockIn({ text, ...shelf }: Shelf & { text: string }): readonly Stock[] {
  const all = everyCapacitor(shelf);
  const option = '--have';
  const help = 'write part=count, such as pp-box-100n-630v=32,pp-box-330n-630v=10';
  const stock = text.split(',').map((piece): Stock => {
    const [name = '', count, ...more] = piece.split('=').map((one) => one.trim());
    if (name === '' || count === undefined || more.length > 0)
      throw new InputError([{ id: 'not-a-stock', message: `${option}: "${piece.trim()}" is no part with its count`, help }]);
    return {
      capacitor: namedIn({ option, name, all }),
      count: wholeOption({ option: `${option} ${name}`, text: count, least: 1, most: mostInDrawer }),
    };
  });
  const twice = stock.find(({ capacitor }, i) => stock.findIndex((other) => other.capacitor === capacitor) !== i);
  if (twice !== undefined)
    throw new InputError([{ id: 'named-twice', message: `${option}: ${twice.capacitor.name} is named twice`, help: 'add the counts' }]);
  return stock;
}
