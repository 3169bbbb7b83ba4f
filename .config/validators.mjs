import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../', import.meta.url));
/** Keywords that say something to people or to the reader of quantities, nothing to a validator. */
const isAnnotation = (keyword) => keyword.startsWith('x-') || ['description', 'title', 'examples', 'default'].includes(keyword);

/** The schema without annotations: they would make up half of the compiled text. */
function bare(schema) {
  if (Array.isArray(schema)) return schema.map(bare);
  if (typeof schema !== 'object' || schema === null) return schema;
  const kept = Object.entries(schema).filter(([keyword]) => !isAnnotation(keyword));
  return Object.fromEntries(
    kept.map(([keyword, value]) => [keyword, ['properties', '$defs'].includes(keyword) ? bareGroup(value) : bare(value)]),
  );
}

/** A mapping of names to schemas, whose names may look like annotations. */
const bareGroup = (schemas) => Object.fromEntries(Object.entries(schemas).map(([name, schema]) => [name, bare(schema)]));

const partKinds = ['mosfets', 'diodes', 'zeners', 'capacitors', 'chokes'];

const readSchema = async (name) => JSON.parse(await readFile(`${root}shared/${name}`, 'utf8'));

async function validatorModule({ schemas, exported }) {
  const ajv = new Ajv2020({
    allErrors: true,
    allowUnionTypes: true,
    discriminator: true,
    inlineRefs: false,
    strict: true,
    strictTypes: false,
    strictRequired: false,
    code: { source: true, esm: true },
  });
  Object.entries(schemas).forEach(([key, schema]) => ajv.addSchema(bare(schema), key));
  const generated = standaloneCode.default(ajv, exported);
  // the generated code still requires one run-time file of the compiler: bundling makes it stand alone
  const bundled = await build({
    stdin: { contents: generated, resolveDir: root, loader: 'js' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    minifySyntax: true,
    minifyWhitespace: true,
    minifyIdentifiers: true,
    legalComments: 'none',
    write: false,
  });
  return `// Generated from the schemas in shared by .config/validators.mjs.\n${bundled.outputFiles[0].text}`;
}

/** Writes the compiled validators of part, project and limits files: one module, since a project file holds parts. */
export async function writeValidators() {
  const [part, project, limits] = await Promise.all(['part.schema.json', 'project.schema.json', 'limits.schema.json'].map(readSchema));
  const written = await validatorModule({
    schemas: {
      'part.schema.json': part,
      'project.schema.json': project,
      'limits.schema.json': limits,
      ...Object.fromEntries(partKinds.map((kind) => [kind, { type: 'object', $ref: `part.schema.json#/$defs/${kind}` }])),
    },
    exported: {
      project: 'project.schema.json',
      limits: 'limits.schema.json',
      ...Object.fromEntries(partKinds.map((kind) => [kind, kind])),
    },
  });
  await writeFile(`${root}src/parts/validate.generated.js`, written);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await writeValidators();
