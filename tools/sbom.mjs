#!/usr/bin/env node
// Writes the software bill of materials of a build as CycloneDX 1.5 JSON: the shared
// libraries the program was linked to, the header-only and static ones it was built
// with, and the page's npm packages, each with version and licence.
// Usage: tools/sbom.mjs BUILD_DIR [OUT]   (default OUT: BUILD_DIR/maslin.cdx.json)
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const build = process.argv[2];
if (!build || !existsSync(join(build, 'maslin'))) {
  console.error('Usage: tools/sbom.mjs BUILD_DIR [OUT]; BUILD_DIR must hold the program maslin.');
  process.exit(2);
}
const out = process.argv[3] ?? join(build, 'maslin.cdx.json');
const run = (program, ...args) => execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

// Built in, so that ldd does not see them: Debian's packages of headers.
const headers = ['nlohmann-json3-dev', 'libboost1.74-dev', 'libcli11-dev', 'libutf8proc-dev'];

/** The components of Debian's packages of these names: one question for all, since each takes long. */
function debianPackages(names) {
  return run('dpkg-query', '-W', '-f=${Package}\t${Version}\t${source:Package}\n', ...names).trim().split('\n').map(
    (line) => debianPackage(...line.split('\t')));
}

function debianPackage(name, version, source) {
  return {
    type: 'library',
    'bom-ref': `deb/${name}`,
    name,
    version,
    purl: `pkg:deb/debian/${name}@${encodeURIComponent(version)}`,
    licenses: debianLicences(name),
    properties: [{ name: 'debian:source', value: source }],
  };
}

// The licence names of the package's copyright file, as it gives them.
function debianLicences(name) {
  const file = `/usr/share/doc/${name}/copyright`;
  if (!existsSync(file)) return [];
  const text = readFileSync(file, 'utf8');
  const names = [...text.matchAll(/^License:[ \t]*(\S.*)$/gm)].map((m) => m[1].trim());
  return [...new Set(names)].map((licence) => ({ license: { name: licence } }));
}

function linkedPackages() {
  const files = [...run('ldd', join(build, 'maslin')).matchAll(/=> (\/\S+)/g)].map((m) => m[1]);
  // dpkg knows the file by the path it was shipped under, with or without /usr; of those that it
  // does not know it says so and goes on.
  const paths = files.flatMap((file) => [realpathSync(file), file, realpathSync(file).replace(/^\/usr/, '')]);
  const said = spawnSync('dpkg-query', ['-S', ...new Set(paths)], { encoding: 'utf8' }).stdout;
  return [...new Set(said.trim().split('\n').map((line) => line.split(':')[0]))];
}

function pagePackages() {
  const lock = JSON.parse(readFileSync(join(root, 'web/package-lock.json'), 'utf8'));
  return Object.entries(lock.packages)
    .filter(([path, entry]) => path.startsWith('node_modules/') && !entry.dev && !entry.devOptional)
    .map(([path, entry]) => {
      const name = path.replace(/^.*node_modules\//, '');
      return {
        type: 'library',
        'bom-ref': `npm/${name}`,
        name,
        version: entry.version,
        purl: `pkg:npm/${name.replace('@', '%40')}@${entry.version}`,
        licenses: entry.license ? [{ license: { name: entry.license } }] : [],
      };
    });
}

const version = readFileSync(join(root, 'CMakeLists.txt'), 'utf8').match(/VERSION (\S+)/)[1];
const bytes = readFileSync(join(build, 'maslin'));
const components = [
  ...debianPackages([...new Set([...linkedPackages(), ...headers.filter((h) => existsSync(`/usr/share/doc/${h}`))])].sort()),
  ...pagePackages(),
];
const bom = {
  $schema: 'http://cyclonedx.org/schema/bom-1.5.schema.json',
  bomFormat: 'CycloneDX',
  specVersion: '1.5',
  version: 1,
  metadata: {
    component: {
      type: 'application',
      'bom-ref': 'maslin',
      name: 'maslin',
      version,
      licenses: [{ license: { id: 'Apache-2.0' } }],
      hashes: [{ alg: 'SHA-256', content: createHash('sha256').update(bytes).digest('hex') }],
    },
  },
  components,
  dependencies: [{ ref: 'maslin', dependsOn: components.map((c) => c['bom-ref']) }],
};
writeFileSync(out, JSON.stringify(bom, null, 2) + '\n');
console.log(`${out}: ${components.length} components`);
