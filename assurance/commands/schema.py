"""`schema`: the shape of the YAML files, or of the published data, as JSON Schema."""

import json

import click


@click.command()
@click.option("--assessment", is_flag=True, help="The schema of assessment.json instead.")
def schema(assessment: bool) -> None:
    """Print the JSON Schema of the YAML files, for completion in an editor."""
    if assessment:
        from assurance.site.published import schema_text

        click.echo(schema_text(), nl=False)
        return
    from assurance.reading.schema import records_schema

    click.echo(json.dumps(records_schema(), indent=1, ensure_ascii=False))
