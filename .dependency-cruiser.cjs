/**
 * Who may import whom. app -> data, auth, documents, engine -> shop -> core; inside core
 * units <- geometry <- board, wood, design <- cutting, statics, setups, engraving, finish; schedule needs only units.
 * Nothing upwards, not even types. tests/boundaries.test.ts proves that each rule rejects a bad file.
 */
const CORE_BASE = '^lib/core/units/'
const CORE_MIDDLE = '^lib/core/(board|wood|design)/'
const room = (names) => `^lib/(${names})/`

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: 'no-cycles',
      severity: 'error',
      from: { pathNot: '^lib/data/generated/' },
      to: { circular: true },
    },
    {
      name: 'core-imports-only-core',
      comment: 'the core is pure: no package, no Node module, no other room',
      severity: 'error',
      from: { path: '^lib/core/' },
      to: { pathNot: '^lib/core/' },
    },
    {
      name: 'units-need-nothing',
      severity: 'error',
      from: { path: CORE_BASE },
      to: { path: '^lib/core/', pathNot: CORE_BASE },
    },
    {
      name: 'geometry-needs-units',
      severity: 'error',
      from: { path: '^lib/core/geometry/' },
      to: { path: '^lib/core/', pathNot: '^lib/core/(units|geometry)/' },
    },
    {
      name: 'middle-of-core-looks-down',
      severity: 'error',
      from: { path: CORE_MIDDLE },
      to: { path: '^lib/core/', pathNot: '^lib/core/(units|geometry|board|wood|design)/' },
    },
    {
      name: 'top-of-core-stays-apart',
      comment: 'cutting, statics, engraving and finish do not know each other; set-ups may read a cut tree',
      severity: 'error',
      from: { path: '^lib/core/(cutting|statics|engraving|finish)/' },
      to: { path: '^lib/core/(cutting|statics|setups|engraving|finish|schedule)/', pathNot: '^lib/core/$1/' },
    },
    {
      name: 'setups-reads-cutting',
      severity: 'error',
      from: { path: '^lib/core/setups/' },
      to: { path: '^lib/core/(statics|engraving|finish|schedule)/' },
    },
    {
      name: 'schedule-needs-units',
      severity: 'error',
      from: { path: '^lib/core/schedule/' },
      to: { path: '^lib/core/', pathNot: '^lib/core/(units|schedule)/' },
    },
    {
      name: 'shop-needs-core',
      severity: 'error',
      from: { path: room('shop') },
      to: { path: '^(lib|app)/', pathNot: '^lib/(core|shop)/' },
    },
    {
      name: 'format-needs-core',
      severity: 'error',
      from: { path: room('format') },
      to: { path: '^(lib|app)/', pathNot: '^lib/(core|format)/' },
    },
    {
      name: 'data-looks-down',
      severity: 'error',
      from: { path: room('data|auth|documents|engine') },
      to: { path: '^app/' },
    },
    {
      name: 'engine-knows-no-page-and-no-auth',
      severity: 'error',
      from: { path: room('engine') },
      to: { path: '^lib/(auth|documents)/' },
    },
    {
      name: 'lib-never-imports-app',
      severity: 'error',
      from: { path: '^lib/' },
      to: { path: '^app/' },
    },
    {
      name: 'app-never-touches-the-database',
      severity: 'error',
      from: { path: '^(app|proxy)' },
      to: { path: '^(lib/data/generated/|node_modules/(pg|@prisma|graphile-worker)/)' },
    },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(\\.next|build|public|lib/data/generated/.+/internal)' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
}
