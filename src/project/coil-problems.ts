import type { Diagnostic } from '../source/diagnostic.ts';
import { entryOf } from '../source/source-tree.ts';
import { formatQuantity } from '../units/format-quantity.ts';
import { conductorShapes } from './design.ts';
import type { ProjectReading } from './project-reading.ts';

const path = 'tank.coil';

/** Keys that only a geometry has. */
const geometryKeys: readonly string[] = ['diameter', 'turns', 'pitch', 'bundleDiameter', 'conductor', 'leads', 'cooling'];

/** What a shape needs beside diameter and conductor. */
const neededBy: Readonly<Record<string, readonly string[]>> = {
  loop: [],
  solenoid: ['turns', 'pitch'],
  spiral: ['turns', 'pitch'],
  bundle: ['turns', 'bundleDiameter'],
};

/** What the examples of missing keys look like. */
const examples: Readonly<Record<string, string>> = {
  inductance: 'inductance: 4.5 uH',
  resistance: 'resistance: 30 mohm',
  diameter: 'diameter: 100 mm',
  turns: 'turns: 5',
  pitch: 'pitch: 6 mm',
  bundleDiameter: 'bundleDiameter: 8 mm',
  conductor: 'conductor: {shape: wire, outerDiameter: 2 mm}',
  wall: 'wall: 1 mm',
  strands: 'strands: 200',
  strandDiameter: 'strandDiameter: 0.1 mm',
};

/** An example of a missing key; a pitch at which turns of the conductor do not touch. */
function exampleOf({ key, reading }: { key: string; reading: ProjectReading }): string {
  const outer = reading.number(`${path}.conductor.outerDiameter`);
  if (key === 'pitch' && outer !== undefined) return `pitch: ${formatQuantity({ value: 1.5 * outer, dimension: 'length', digits: 2 })}`;
  return examples[key] ?? key;
}

/**
 * What cannot be true of the coil of a project file although each key for itself can: forms mixed or incomplete, turns that overlap,
 * a wall thicker than the tube, strands that do not fit.
 *
 * @returns `missing-key`, `stray-key`, `impossible-geometry`
 */
export function coilProblems(reading: ProjectReading): readonly Diagnostic[] {
  const node = reading.node(path);
  if (node?.kind !== 'map') return [];
  const has = (key: string): boolean => entryOf(node, key) !== undefined;
  const missing = (key: string, why: string, where = path): Diagnostic => ({
    id: 'missing-key',
    message: `\`${where}\` needs \`${key}\`${why}`,
    help: `add \`${exampleOf({ key, reading })}\``,
    at: reading.source.locateKey(where),
  });
  if (!has('shape')) {
    const stray = node.entries.find(({ key }) => geometryKeys.includes(key));
    if (stray !== undefined) {
      const message = `\`${path}\` has \`${stray.key}\` and no \`shape\``;
      return [{ id: 'missing-key', message, help: 'add `shape: loop`, solenoid, spiral or bundle', at: stray.keyAt }];
    }
    return ['inductance', 'resistance'].flatMap((key) => (has(key) ? [] : [missing(key, ', or a `shape` with its dimensions')]));
  }
  const shape = reading.text(`${path}.shape`) ?? '';
  // an unknown shape is told with the words that are known
  if (!Object.hasOwn(neededBy, shape)) return [];
  const needed = ['diameter', 'conductor', ...(neededBy[shape] ?? [])].filter((key) => !has(key));
  if (needed.length > 0) return needed.map((key) => missing(key, ` for a ${shape}`));
  const lacking = conductorLacks(reading);
  if (lacking !== undefined) return [missing(lacking.key, ` for ${lacking.shape}`, `${path}.conductor`)];
  const stray = [...strayKeys({ reading, owner: path, of: shape, takenBy: coilTakes }), ...strayConductorKeys(reading)];
  return stray.length > 0 ? stray : impossible({ reading, shape });
}

/** Keys that only some shapes take, with those shapes. */
type TakenBy = Readonly<Record<string, readonly string[]>>;
const coilTakes: TakenBy = { pitch: ['solenoid', 'spiral'], bundleDiameter: ['bundle'] };
const conductorTakes: TakenBy = { wall: ['tube'], strands: ['litz'], strandDiameter: ['litz'] };

/** A key that its shape has no use for: whoever wrote it means another shape, or believes that it counts. */
function strayKeys({
  reading,
  owner,
  of,
  takenBy,
}: {
  reading: ProjectReading;
  owner: string;
  of: string;
  takenBy: TakenBy;
}): readonly Diagnostic[] {
  return Object.entries(takenBy).flatMap(([key, shapes]): Diagnostic[] => {
    const entry = entryOf(reading.node(owner), key);
    if (entry === undefined || shapes.includes(of)) return [];
    const others = shapes.map((shape) => `\`shape: ${shape}\``).join(' or ');
    const message = `\`${owner}.${key}\` says nothing of \`shape: ${of}\`: it belongs to ${others}`;
    return [{ id: 'stray-key', message, help: `leave \`${key}\` out, or write ${others}`, at: entry.keyAt }];
  });
}

function strayConductorKeys(reading: ProjectReading): readonly Diagnostic[] {
  const owner = `${path}.conductor`;
  const of = reading.text(`${owner}.shape`) ?? '';
  return !conductorShapes.some((shape) => shape === of) ? [] : strayKeys({ reading, owner, of, takenBy: conductorTakes });
}

function conductorLacks(reading: ProjectReading): { key: string; shape: string } | undefined {
  const shape = reading.text(`${path}.conductor.shape`) ?? '';
  const wanted = shape === 'tube' ? ['wall'] : shape === 'litz' ? ['strands', 'strandDiameter'] : [];
  const key = wanted.find((one) => reading.node(`${path}.conductor.${one}`) === undefined);
  return key === undefined ? undefined : { key, shape: shape === 'tube' ? 'a tube' : 'litz wire' };
}

/** Share of a section that round strands and turns fill at most. */
const densest = Math.PI / (2 * Math.sqrt(3));

function impossible({ reading, shape }: { reading: ProjectReading; shape: string }): readonly Diagnostic[] {
  const number = (key: string): number | undefined => reading.number(`${path}.${key}`);
  const [diameter, outer] = [number('diameter'), number('conductor.outerDiameter')];
  if (diameter === undefined || outer === undefined) return [];
  const [turns, pitch, bundle, wall, strand] = [
    number('turns') ?? 1,
    number('pitch'),
    number('bundleDiameter'),
    number('conductor.wall'),
    number('conductor.strandDiameter'),
  ];
  const strands = reading.count(`${path}.conductor.strands`);
  const refuse = (key: string, message: string, help: string): readonly Diagnostic[] => [
    { id: 'impossible-geometry', message, help, at: reading.locate(`${path}.${key}`) },
  ];
  if (wall !== undefined && wall > outer / 2)
    return refuse('conductor.wall', 'the wall is thicker than the radius of the tube', 'write a smaller wall, or shape: wire');
  if (strand !== undefined && strands !== undefined && strands * strand ** 2 > densest * outer ** 2 && strands > 1)
    return refuse(
      'conductor.strands',
      'the strands do not fit into the bundle',
      'write fewer or thinner strands, or a larger outerDiameter',
    );
  if (outer >= diameter)
    return refuse('diameter', 'the conductor is thicker than the coil is wide', 'write the diameter to the axis of the conductor');
  if (pitch !== undefined && turns > 1 && pitch < outer)
    return refuse('pitch', 'the turns overlap: the pitch is smaller than the conductor', 'write the distance of the turns axis to axis');
  if (shape === 'spiral' && pitch !== undefined && diameter / 2 - turns * pitch < outer / 2)
    return refuse('turns', 'the spiral winds into its own middle', 'write fewer turns, a smaller pitch or a larger diameter');
  if (shape === 'bundle' && bundle !== undefined && (bundle < outer || (turns > 1 && turns * outer ** 2 > densest * bundle ** 2)))
    return refuse('bundleDiameter', 'the turns do not fit into the bundle', 'write a larger bundleDiameter');
  if (shape === 'bundle' && turns % 1 !== 0) return refuse('turns', 'a bundle has whole turns', 'write a whole number');
  if (shape === 'loop' && turns !== 1) return refuse('turns', 'a loop has one turn', 'leave turns out, or write shape: bundle or solenoid');
  const spacing = number('leads.spacing');
  if (spacing !== undefined && spacing < outer)
    return refuse(
      'leads.spacing',
      'the leads overlap: they are thicker than their spacing',
      'write the distance of the leads axis to axis',
    );
  if (reading.text(`${path}.cooling`) === 'water' && reading.text(`${path}.conductor.shape`) !== 'tube')
    return refuse('cooling', 'water flows in a tube only', 'write conductor: {shape: tube, …} or cooling: air');
  return [];
}
