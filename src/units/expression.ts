import { createParse } from 'mathjs';
import { one, type PlainUnit } from './plain-unit.ts';
import { isUnitSymbol } from './unit-symbol.ts';

/** What an expression comes to. */
export type Value = number | PlainUnit;

/** A piece of an expression that is not arithmetic with units. */
export class ExpressionRefusal extends Error {
  readonly id: string;
  readonly help: string | undefined;
  constructor({ id, message, help }: { id: string; message: string; help?: string }) {
    super(message);
    this.name = 'ExpressionRefusal';
    this.id = id;
    this.help = help;
  }
}

/** Base of the few nodes that mathjs' parser may build here; the flags are what the parser itself asks of a node. */
abstract class Node {
  get isNode(): true {
    return true;
  }
  abstract evaluate(): Value;
  /** A unit symbol, or a power or quotient that begins with one: what may stand behind a number without a sign between. */
  get isUnitLike(): boolean {
    return false;
  }
}

class ConstantNode extends Node {
  readonly isConstantNode = true;
  readonly value: unknown;
  constructor(value: unknown) {
    super();
    this.value = value;
  }
  evaluate(): Value {
    if (typeof this.value === 'number') return this.value;
    throw new ExpressionRefusal({ id: 'not-arithmetic', message: 'only numbers and units belong in a quantity' });
  }
}

class SymbolNode extends Node {
  readonly isSymbolNode = true;
  readonly name: string;
  constructor(name: string) {
    super();
    this.name = name;
  }
  override get isUnitLike(): boolean {
    return true;
  }
  evaluate(): Value {
    if (isUnitSymbol(this.name)) return one(this.name);
    throw new UnknownUnit(this.name);
  }
}

/** A word that is no unit. */
export class UnknownUnit extends Error {
  readonly word: string;
  constructor(word: string) {
    super(word);
    this.name = 'UnknownUnit';
    this.word = word;
  }
}

class ParenthesisNode extends Node {
  readonly isParenthesisNode = true;
  readonly content: Node;
  constructor(content: Node) {
    super();
    this.content = content;
  }
  evaluate(): Value {
    return this.content.evaluate();
  }
}

class OperatorNode extends Node {
  readonly isOperatorNode = true;
  readonly op: string;
  readonly fn: string;
  readonly args: readonly Node[];
  readonly implicit: boolean;
  readonly isPercentage: boolean;
  constructor(op: string, fn: string, args: readonly Node[], implicit = false, isPercentage = false) {
    super();
    this.op = op;
    this.fn = fn;
    this.args = args;
    this.implicit = implicit;
    this.isPercentage = isPercentage;
  }
  override get isUnitLike(): boolean {
    return this.fn === 'pow' && this.args[0]?.isUnitLike === true;
  }
  evaluate(): Value {
    const [left, right] = this.args;
    const a = left!.evaluate();
    if (right === undefined) return unary(this.fn, this.op, a);
    if (this.implicit && !(right.isUnitLike && typeof a === 'number')) throw missingOperator;
    return binary({ fn: this.fn, op: this.op, a, b: right.evaluate() });
  }
}

const missingOperator = new ExpressionRefusal({
  id: 'not-arithmetic',
  message: 'a sign is missing between two quantities',
  help: 'write one quantity, or +, -, * or / between them',
});

function unary(fn: string, op: string, a: Value): Value {
  if (fn === 'unaryMinus') return typeof a === 'number' ? -a : a.multiply(-1);
  if (fn === 'unaryPlus') return a;
  throw notArithmetic(op);
}

function notArithmetic(op: string): ExpressionRefusal {
  return new ExpressionRefusal({ id: 'not-arithmetic', message: `"${op}" is not arithmetic`, help: 'use +, -, *, /, ^ and brackets' });
}

function binary({ fn, op, a, b }: { fn: string; op: string; a: Value; b: Value }): Value {
  switch (fn) {
    case 'add':
      return sum(a, b, 1);
    case 'subtract':
      return sum(a, b, -1);
    case 'multiply':
      return typeof a === 'number' ? (typeof b === 'number' ? a * b : b.multiply(a)) : a.multiply(b);
    case 'divide':
      return typeof a === 'number' ? (typeof b === 'number' ? a / b : (b.pow(-1) as PlainUnit).multiply(a)) : a.divide(b);
    case 'pow':
      if (typeof b !== 'number') throw new ExpressionRefusal({ id: 'not-arithmetic', message: 'an exponent has no unit' });
      return typeof a === 'number' ? a ** b : a.pow(b);
    default:
      throw notArithmetic(op);
  }
}

function sum(a: Value, b: Value, sign: 1 | -1): Value {
  if (typeof a === 'number' && typeof b === 'number') return a + sign * b;
  if (typeof a === 'number' || typeof b === 'number' || !a.equalBase(b)) {
    throw new ExpressionRefusal({
      id: 'wrong-unit',
      message: 'only quantities of the same kind add up',
      help: 'give both sides a unit of the same kind',
    });
  }
  return plainSum(a, b, sign);
}

/** Sum in the SI unit of the first. */
function plainSum(a: PlainUnit, b: PlainUnit, sign: 1 | -1): Value {
  const total = (a.value ?? Number.NaN) + sign * (b.value ?? Number.NaN);
  const single = a.divide(a.value === null || a.value === 0 ? 1 : a.value);
  if (typeof single === 'number') return total;
  return a.value === 0 ? (sign === 1 ? b : b.multiply(-1)) : single.multiply(total);
}

/** A node that has no place in a quantity; `what` names it. */
function refusedNode(what: string): new () => Node {
  return class extends Node {
    constructor() {
      super();
      throw new ExpressionRefusal({
        id: 'not-arithmetic',
        message: `${what} does not belong in a quantity`,
        help: 'use numbers, units, +, -, *, /, ^ and brackets',
      });
    }
    evaluate(): Value {
      throw new ExpressionRefusal({ id: 'not-arithmetic', message: `${what} does not belong in a quantity` });
    }
  };
}

/** mathjs' parser with nodes of our own: nothing but arithmetic and units can be built. */
const parse = createParse({
  typed: Object.assign((_name: string, signatures: Readonly<Record<string, (text: string) => unknown>>) => signatures['string'], {
    addConversion: () => undefined,
  }),
  numeric: (text: string) => Number(text),
  config: { number: 'number', numberFallback: 'number' },
  ConstantNode,
  SymbolNode,
  ParenthesisNode,
  OperatorNode,
  AccessorNode: refusedNode('a property'),
  ArrayNode: refusedNode('a list'),
  AssignmentNode: refusedNode('an assignment'),
  BlockNode: refusedNode('a second statement'),
  ConditionalNode: refusedNode('a condition'),
  FunctionAssignmentNode: refusedNode('a function'),
  FunctionNode: refusedNode('a function call'),
  IndexNode: refusedNode('an index'),
  ObjectNode: refusedNode('an object'),
  RangeNode: refusedNode('a range'),
  RelationalNode: refusedNode('a comparison'),
});

/**
 * Value of an arithmetic expression with units.
 *
 * @param text  at most 200 characters, ASCII units
 * @returns a number, or a quantity
 * Errors: ExpressionRefusal for anything but arithmetic, UnknownUnit for a word that is no unit, SyntaxError of the parser.
 */
export function expressionValue(text: string): Value {
  const node = parse(text);
  if (!(node instanceof Node)) throw new SyntaxError('not an expression');
  return node.evaluate();
}
