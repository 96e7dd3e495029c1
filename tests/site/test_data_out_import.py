import subprocess
import sys


def test_data_out_needs_no_template_engine() -> None:
    unwanted = {"jinja2", "mkdocs"}
    code = f"import sys, assurance.site.data_out; sys.exit(bool({unwanted} & set(sys.modules)))"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
