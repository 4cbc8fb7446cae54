// dependency-cruiser's swc parser does not ask for JSX; TypeScript 7 has no compiler API it could use instead.
const swc = require('@swc/core')
const parseFileSync = swc.parseFileSync
swc.parseFileSync = (file, options) => parseFileSync(file, { ...options, tsx: file.endsWith('.tsx') })

/**
 * The arrows of the house: each room may import only from the rooms listed for it.
 * kept, money, calendar ← rules ← ledger, farm ← plan ← runway ← chance ← solve; ledger, plan ← db; all of these ← today ← web, cli
 * (ARCHITECTURE in DEVELOPERS.md). Views take types from today and nothing from web or db.
 */
const underPlan = ['kept', 'money', 'calendar', 'rules', 'farm']
const underSolve = [...underPlan, 'plan', 'runway', 'chance']
const allowed = {
  kept: [],
  money: [],
  calendar: [],
  rules: ['kept', 'money', 'calendar'],
  ledger: ['kept', 'money', 'calendar', 'rules'],
  farm: ['money', 'calendar', 'rules'],
  plan: underPlan,
  runway: [...underPlan, 'plan'],
  chance: [...underPlan, 'plan', 'runway'],
  solve: underSolve,
  db: [...underPlan, 'ledger', 'plan'],
  today: [...underSolve, 'solve', 'ledger', 'db'],
}

const rooms = Object.entries(allowed).map(([room, others]) => ({
  name: `${room}-imports-only-what-lies-under-it`,
  severity: 'error',
  from: { path: `^src/${room}/` },
  to: { path: '^(src|views|sample|tests)/', pathNot: `^src/(${[room, ...others].join('|')})/` },
}))

const pure = Object.keys(allowed).filter((room) => !['db', 'chance'].includes(room))

module.exports = {
  forbidden: [
    ...rooms,
    {
      name: 'only-db-touches-sqlite',
      severity: 'error',
      from: { pathNot: '^src/db/' },
      to: { path: 'node_modules/(better-sqlite3|drizzle-orm)' },
    },
    {
      name: 'pure-rooms-touch-no-edge',
      severity: 'error',
      from: { path: `^src/(${pure.join('|')})/` },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'views-know-types-and-formatting-only',
      severity: 'error',
      from: { path: '^views/' },
      to: { path: '^src/(db|web|cli)/' },
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    { name: 'every-import-resolves', severity: 'error', from: {}, to: { couldNotResolve: true } },
    {
      name: 'no-dead-files',
      severity: 'error',
      from: { orphan: true, pathNot: ['\\.mjs$', '^src/main\\.ts$', '^views/assets/'] },
      to: {},
    },
  ],
  options: {
    parser: 'swc',
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
      extensions: ['.ts', '.tsx', '.mjs', '.js'],
    },
  },
}
