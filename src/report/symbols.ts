/** Symbols of the formulas, in the order that an explanation lists them. */
const meanings: Readonly<Record<string, string>> = {
  V: 'supply voltage',
  I: 'supply current while running',
  r: 'resistance of supply, choke and switch in series',
  rs: 'resistance of source and leads',
  Vt: 'peak voltage across the tank',
  Vd: 'peak voltage of a drain',
  V_DSS: 'rated drain voltage',
  L: 'inductance of the coil',
  C: 'capacitance of the bank',
  R: 'all loss and load as one resistance across the tank',
  Q: 'quality of the tank',
  Z0: '√(L/C)',
  f: 'frequency',
  ω: '2π·f',
  k: 'factor of a low Q, 1 where Q is high',
  Le: 'inductance of the chokes as the slow resonance sees it',
  Lc: 'inductance of one choke',
  ΔI: 'ripple of the current, peak to peak',
  Ron: 'on-resistance of a switch',
  Ron25: 'on-resistance at 25 °C',
  K: 'channel constant of a switch, ½·K·(V_GS − Vth)² being its current',
  Vth: 'gate threshold',
  gm: 'transconductance',
  C_iss: 'input capacitance of the switch',
  Vg: 'rail that feeds the gates',
  Rg: 'pull-up',
  Rpd: 'pull-down',
  Vz: 'voltage of the clamp',
  Zz: 'impedance of the clamp',
  Vp: 'gate voltage at which the switch carries the whole current',
  Vhigh: 'gate voltage while on',
  Vf: 'drop of the cross diode',
  V_hold: 'gate voltage of the switch that should be off',
  Ig: 'current of the other gate’s pull-up',
  I_D: 'rated drain current',
  Qg: 'gate charge',
  Qrr: 'recovery charge of the diode',
  t_rr: 'recovery time of the diode',
  t1: 'time in which the tank lifts the drain to Vp − Vf',
  t_g: 'time until the gate is up',
  i_leak: 'current of a switch that is not held off',
  Tj: 'junction temperature',
  Tc: 'case temperature',
  Ta: 'ambient temperature',
  R_th: 'thermal resistance to the air',
  tanδ: 'loss tangent',
  r_s: 'series resistance that the loss tangent does not contain',
  share: 'of the tank voltage, on one capacitor of several in series',
  ρ: 'resistivity of the metal',
  ζ: 'damping',
  Tr: 'rise time of the supply',
  Ls: 'inductance of the supply leads',
  Cb: 'bulk capacitance',
};

const ofCapacitor = {
  I: 'effective current of one capacitor',
  C: 'its capacitance',
  P: 'its loss',
  ΔT: 'its rise',
  V: 'its effective voltage',
};

/** Symbols that mean something else in one check. */
const elsewhere: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'switch-temperature': { P: 'loss of one switch', n: 'exponent that the part’s onResistanceFactor gives' },
  'gate-rise-time': { C: 'capacitance of a gate', 'V′': 'voltage that pull-up and pull-down end at' },
  'pull-up-power': { P: 'mean power' },
  'clamp-power': { P: 'mean power' },
  'cross-diode-voltage': { Vr: 'reverse voltage' },
  'cross-diode-recovery': { share: 'of the period' },
  'cross-diode-current': { I: 'mean current of the diode' },
  'capacitor-ac-voltage': ofCapacitor,
  'capacitor-peak-voltage': { Vc: 'peak voltage of one capacitor' },
  'capacitor-current': { I: ofCapacitor.I, n: 'capacitors in parallel' },
  'capacitor-self-heating': ofCapacitor,
  'capacitor-temperature': { P: ofCapacitor.P },
  'coil-temperature': { I: 'effective current of the coil', 'R′': 'resistance of a metre of it', ε: 'emissivity', σ: 'Stefan’s constant' },
  'coil-current-density': { I: 'effective current of the coil', 'R′ac': 'resistance of a metre of it at the frequency' },
  'choke-temperature': {
    R: 'resistance of the winding',
    I: 'current of one choke',
    P_core: 'core loss',
    P0: 'the stated core loss, at ripple ΔI0 and frequency f0',
  },
  'supply-sag': { share: 'of the supply voltage' },
  'rail-overshoot': { k: 'highest rail over the supply voltage, at switch-on', Q: 'charge', ω: 'of leads and bulk capacitor' },
  'start-gate-swing': { C: 'capacitance of a gate' },
  'touch-voltage': { V: 'effective voltage of the tank' },
  'hot-surface': { P: 'loss of the part' },
};

const escaped = (symbol: string): string => symbol.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&');

/** Whether a formula contains a symbol; `298.15 K` is a unit. */
function contains(formula: string, symbol: string): boolean {
  return new RegExp(`(?<![\\p{L}\\w′°]|\\d )${escaped(symbol)}(?![\\p{L}\\w′])`, 'u').test(formula);
}

/**
 * The symbols of a check's formula in words.
 *
 * @param id       of the check
 * @param formula  as `explain` prints it
 * @returns such as `Lc inductance of one choke, L inductance of the coil`; empty where the formula is in words
 *
 * @example symbolWords({ id: 'choke-ratio', formula: 'Lc/L' }) // 'L inductance of the coil; Lc inductance of one choke'
 */
export function symbolWords({ id, formula }: { id: string; formula: string }): string {
  return Object.entries({ ...meanings, ...elsewhere[id] })
    .filter(([symbol]) => contains(formula, symbol))
    .map(([symbol, words]) => `${symbol} ${words}`)
    .join('; ');
}
