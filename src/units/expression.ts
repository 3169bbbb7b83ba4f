import { createParse } from 'mathjs';
import { one } from './plain-unit.ts';
import { changedBy, ExpressionRefusal, joined, signed, type Value } from './unit-arithmetic.ts';
import { isUnitSymbol } from './unit-symbol.ts';

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
    const value = left!.evaluate();
    if (right === undefined) return signed({ name: this.fn, operator: this.op, value });
    if (this.implicit && !(right.isUnitLike && typeof value === 'number')) throw missingOperator;
    // mathjs writes a + b% as a + a·b%, with the same node a twice; evaluated twice, every such sum would double the work
    const ratio = right instanceof OperatorNode && right.args[0] === left ? right.args[1] : undefined;
    if (ratio !== undefined) return changedBy({ name: this.fn, value, ratio: ratio.evaluate() });
    return joined({ name: this.fn, operator: this.op, left: value, right: right.evaluate() });
  }
}

const missingOperator = new ExpressionRefusal({
  id: 'not-arithmetic',
  message: 'a sign is missing between two quantities',
  help: 'write one quantity, or +, -, * or / between them',
});

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
