"""Small faults, as a hand slips: where one can be put into a file, and the file with it."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass

# What stands in for what. Each is a slip that leaves a program which still runs.
OPERATORS: dict[type, type] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Div,
    ast.Mod: ast.FloorDiv,
    ast.Pow: ast.Mult,
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
NAMES = {
    name: other
    for two in (("min", "max"), ("any", "all"), ("ceil", "floor"), ("sin", "cos"), ("real", "imag"))
    for name, other in (two, two[::-1])
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """`was` became `put` in that line of `file`."""

    file: str
    line: int
    number: int  # in the order of the file
    was: str
    put: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.was} → {self.put}"


class _Slips(ast.NodeTransformer):
    """Tells every slip that a tree allows; makes the one that is asked for."""

    def __init__(self, file: str, asked: int | None = None) -> None:
        self.file, self.asked = file, asked
        self.found: list[Fault] = []

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        node.args = self.visit(node.args)
        node.body = [self.visit(one) for one in node.body]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        node.body = [self.visit(one) for one in node.body]
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        if node.value:
            node.value = self.visit(node.value)
        return node

    def visit_arg(self, node: ast.arg) -> ast.AST:
        return node

    def visit(self, node: ast.AST) -> ast.AST:
        before = ast.unparse(node) if isinstance(node, ast.expr) else ""
        node = super().visit(node)
        for slipped in slips(node):
            self.found.append(
                Fault(
                    file=self.file,
                    line=node.lineno,
                    number=len(self.found),
                    was=before,
                    put=ast.unparse(slipped),
                )
            )
            if self.asked == len(self.found) - 1:
                node = ast.copy_location(slipped, node)
        return node


def slips(node: ast.AST) -> Iterator[ast.expr]:
    """What might have been written in the place of `node`."""
    match node:
        case ast.BinOp(op=operator) if type(operator) in OPERATORS and not is_text(node):
            yield ast.BinOp(node.left, OPERATORS[type(operator)](), node.right)
        case ast.Compare(ops=operators):
            for place, operator in enumerate(operators):
                others = [*operators[:place], OPERATORS[type(operator)](), *operators[place + 1 :]]
                yield ast.Compare(node.left, others, node.comparators)
        case ast.BoolOp(op=operator):
            yield ast.BoolOp(OPERATORS[type(operator)](), node.values)
        case ast.UnaryOp(op=ast.USub() | ast.Not()):
            yield node.operand
        case ast.Constant(value=bool(value)):
            yield ast.Constant(not value)
        case ast.Constant(value=int(value) | float(value)):
            yield ast.Constant(value + 1)
        case ast.Name(id=name, ctx=ast.Load()) if name in NAMES:
            yield ast.Name(NAMES[name], node.ctx)
        case ast.Attribute(attr=name, ctx=ast.Load()) if name in NAMES:
            yield ast.Attribute(node.value, NAMES[name], node.ctx)


def is_text(node: ast.BinOp) -> bool:
    """Whether words or rows are joined: to take one from the other stops every program."""
    joined = ast.JoinedStr | ast.List | ast.Tuple | ast.ListComp
    return any(
        isinstance(one, joined) or (isinstance(one, ast.Constant) and isinstance(one.value, str))
        for one in (node.left, node.right)
    )


def faults_of(source: str, file: str) -> list[Fault]:
    slips = _Slips(file)
    slips.visit(ast.parse(source))
    return slips.found


def with_fault(source: str, file: str, number: int) -> ast.Module:
    tree = _Slips(file, number).visit(ast.parse(source))
    return ast.fix_missing_locations(tree)
