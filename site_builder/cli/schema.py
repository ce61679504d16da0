"""``benchlore schema``: JSON Schemas for editors."""

from __future__ import annotations

from pathlib import Path

import click

from site_builder.notebook.schema import schema_names, schema_text


@click.command()
@click.argument("kind", required=False, type=click.Choice(schema_names()))
@click.option("--into", type=click.Path(path_type=Path, file_okay=False), default=None,
              help="Write the schemas of all kinds into this folder, one file each.")
def schema(kind: str | None, into: Path | None) -> None:
    """Print the JSON Schema of a kind of file, or write those of all kinds."""
    if into is not None:
        into.mkdir(parents=True, exist_ok=True)
        for name in schema_names():
            (into / f"{name}.json").write_text(schema_text(name), encoding="utf-8")
        click.echo(f"{len(schema_names())} schemas in {into}")
    elif kind is not None:
        click.echo(schema_text(kind), nl=False)
    else:
        raise click.UsageError(f"Which kind? One of {', '.join(schema_names())}; or --into DIR for all.")
