"""The command line: reads what was typed, hands it on, prints what comes back. No physics here.

Only the standard library and cyclopts are imported at the top, so that ``soffit --help`` is instant.
"""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Sequence
from contextlib import closing, suppress
from types import FrameType
from typing import Annotated, Any, Literal

from cyclopts import App, CycloptsError, Parameter

from soffit.show.helppage import HelpPage
from soffit.show.place import Place, Usage, put, work_place, write_whole
from soffit.show.typed import an_age, beam_files, chart_name, check_life, number_of_jobs, refuse_clashes

Units = Literal["SI", "US"]
Kind = Literal["plain", "bars", "pretensioned", "post-tensioned-bonded", "post-tensioned-unbonded"]
Flag = Parameter(negative=())


def _option(letters: str, *names: str) -> Parameter:
    return Parameter(name=list(names) or None, metavar=letters)


Folder = Annotated[str | None, _option("DIR")]
Output = Annotated[str | None, _option("FILE", "--output", "-o")]

INTERRUPTED, TERMINATED, BROKEN_PIPE = 130, 143, 141  # 128 + the number of the signal, as shells count


def _version() -> str:
    from soffit import __version__

    return f"soffit {__version__}"


app = App(
    name="soffit",
    help="The whole life of a concrete beam, from its file to its collapse.\n\n"
    "Start with `soffit new bars -o beam.toml`, then `soffit life beam.toml`.",
    usage="soffit COMMAND …",
    version=_version,
    help_format="plaintext",
    help_formatter=HelpPage(),
    suppress_keyboard_interrupt=False,
)


@app.command(sort_key=2, usage="soffit life FILES… [OPTIONS]")
def life(
    *files: str,
    json: Folder = None,
    picture: Folder = None,
    at: Annotated[str | None, _option("EVENT")] = None,
    units: Units | None = None,
    law: Annotated[str | None, _option("NAME")] = None,
    age: Annotated[str | None, _option("TIME")] = None,
    jobs: Annotated[str | None, _option("N")] = None,
    quiet: Annotated[bool, Flag] = False,
) -> int:
    """Tell the life of each beam: what happens as the load rises, and how it fails.

    Prints the events in order, the warning that the beam gives, what was assumed, and one closing sentence.
    A file with faults does not stop the others; the exit code is then 1.

    Parameters
    ----------
    files
        Beam files.
    json
        Folder for one JSON file a beam.
    picture
        Folder for one sheet a beam, as SVG and PNG.
    at
        Event whose cracks the picture shows, such as "first crack" (else the peak).
    units
        Units of what is shown, instead of those of the file.
    law
        Compression law of the concrete, instead of that of the file.
    age
        Age at which loading begins, such as "30 years"; else the last of the file's stages.
    jobs
        Processes to use, instead of as many as pay.
    quiet
        Print only the closing sentence of each beam.
    """
    from soffit.show import batch
    from soffit.show.progress import Progress

    paths = beam_files(files)
    check_life(at, picture, law)
    days = an_age(age)
    wished = number_of_jobs(jobs)
    refuse_clashes(paths, {"--json": (json, (".json",)), "--picture": (picture, (".svg", ".png"))})
    width, colours = _terminal()
    faulty = False
    with work_place("--json", json) as texts, work_place("--picture", picture) as drawings:
        orders = [
            batch.Order(path, law, days, units, at, quiet, width, colours, _part(texts, i), _part(drawings, i))
            for i, path in enumerate(paths)
        ]
        cold = _announce_compiling()
        count = batch.processes(orders, wished)
        with (
            Progress(len(orders), shown=not quiet) as progress,
            closing(batch.outcomes(orders, count, cold, progress.done)) as outcomes,
        ):
            told = False
            for outcome in outcomes:
                problems = [*outcome.problems, *put(outcome.order.json, outcome.order.picture)]
                progress.clear()
                if outcome.story is not None:
                    _print(("\n\n" if told and not quiet else "") + outcome.story)
                    told = True
                _complain(problems)
                faulty = faulty or bool(problems)
                progress.draw()
    return int(faulty)


@app.command(sort_key=3, usage="soffit compare FILES… [OPTIONS]")
def compare(*files: str, picture: Annotated[str | None, _option("NAME")] = None, units: Units | None = None) -> int:
    """Lay several beams over one another: one table, and one chart of load against deflection.

    Parameters
    ----------
    files
        Beam files, two or more.
    picture
        Where the chart goes: a folder, or a name with or without .svg, .png or .pdf.
    units
        Units of what is shown, instead of those of the first file.
    """
    from soffit.show import batch
    from soffit.show.comparetable import compared

    paths = beam_files(files)
    if len(paths) < 2:
        raise Usage("compare lays two or more beams over one another; give at least two beam files.")
    width, colours = _terminal()
    folder, stem, formats = chart_name(picture)
    _announce_compiling()
    lives, problems = batch.lives(paths)
    _complain(problems)
    if not lives:
        return 1
    with work_place("--picture", folder) as place:
        written = batch.draw_comparison(lives, _part(place, 0), stem, formats, units)
        problems += put(_part(place, 0))
    _print(compared(lives, units, width, colours, written))
    return int(bool(problems))


@app.command(sort_key=3, usage="soffit age FILES… [OPTIONS]")
def age(
    *files: str,
    json: Folder = None,
    picture: Folder = None,
    csv: Folder = None,
    at: Annotated[str | None, _option("AGE")] = None,
    place: Annotated[str | None, _option("LENGTH")] = None,
    measured: Annotated[str | None, _option("FILE")] = None,
    units: Units | None = None,
    no_band: Annotated[bool, Flag] = False,
    limits: Annotated[bool, Flag] = False,
    quiet: Annotated[bool, Flag] = False,
) -> int:
    """Tell what the years do: prestress, stresses, and camber or sag, from casting to old age.

    Prints the state after every stage, the stresses against their limits, where the prestress was lost, what the
    formulas of the standards say of it, how far all this scatters, and what was assumed. The file needs the
    relative_humidity of the air in [concrete].

    Parameters
    ----------
    files
        Beam files.
    json
        Folder for one JSON file a beam.
    picture
        Folder for one sheet a beam, as SVG and PNG.
    csv
        Folder for one table of the steps a beam.
    at
        An age to be told besides those of the stages, such as "30 years".
    place
        Where stresses and deflection are told, from the left end, such as "5 m" (else where it bends most).
    measured
        Table (CSV) of deflections measured there, with the columns "age (days)" and "deflection (mm)", down positive.
    units
        Units of what is shown, instead of those of the file.
    no_band
        Leave out how far the results scatter (faster).
    limits
        Print every limit of stress at every stage, not only the most used.
    quiet
        Print only the closing sentence of each beam.
    """
    from soffit.show import age as ageing

    paths = beam_files(files)
    told_at, told_place = ageing.typed(at, "--at", "time"), ageing.typed(place, "--place", "length")
    if measured is not None and len(paths) > 1:
        raise Usage("--measured belongs to one beam; give one beam file with it.")
    drawn = ageing.endings(("svg", "png"))
    wanted = {"--json": (json, ageing.endings(("json",))), "--csv": (csv, ageing.endings(("csv",)))}
    refuse_clashes(paths, {**wanted, "--picture": (picture, drawn)})
    width, colours = _terminal()
    faulty = told = False
    with work_place("--json", json) as texts, work_place("--csv", csv) as rows, work_place("--picture", picture) as art:
        for i, path in enumerate(paths):
            places = [_part(folder, i) for folder in (texts, art, rows)]
            wish = (path, told_at, told_place, measured, not no_band, limits, units, quiet)
            order = ageing.Order(*wish, width, colours, *places)
            outcome = ageing.carry_out(order)
            problems = [*outcome.problems, *put(*places)]
            if outcome.story is not None:
                _print(("\n\n" if told and not quiet else "") + outcome.story)
                told = True
            _complain(problems)
            faulty = faulty or bool(problems)
    return int(faulty)


@app.command(sort_key=3, usage="soffit verify FILES… [OPTIONS]")
def verify(
    *files: str,
    to: Literal["aci318-19", "en1992", "aashto-lrfd", "mc2010"] = "en1992",
    working: Annotated[str | None, _option("CHECK")] = None,
    json: Annotated[bool, Flag] = False,
    json_to: Folder = None,
    table: Annotated[str | None, _option("FILE")] = None,
    units: Units | None = None,
    jobs: Annotated[str | None, _option("N")] = None,
    quiet: Annotated[bool, Flag] = False,
) -> int:
    """Verify beams to a standard: every check with demand, resistance, ratio and clause, what governs, what cures it.

    A folder stands for all the beam files in it. What the standard wants to know beyond the beam stands in the table
    [verify] of the file. The exit code is 1 where a file has faults or a beam fails.

    Parameters
    ----------
    files
        Beam files or folders.
    to
        The standard: EN 1992-1-1, ACI 318-19, AASHTO LRFD or fib Model Code 2010.
    working
        Show the working of these checks: a name in brackets behind a working, its beginning, or "all".
    json
        Print JSON instead of text, one beam.
    json_to
        Folder for one JSON file a beam.
    table
        One row a beam, as .csv or .xlsx.
    units
        Units of what is shown, instead of those of the file; formulas keep those of their standard.
    jobs
        Processes to use, instead of as many as pay.
    quiet
        Print only the closing sentence of each beam.
    """
    from soffit.show import verify as command
    from soffit.show.progress import Progress

    paths = command.files(files)
    if json and len(paths) > 1:
        raise Usage("--json prints one beam; with several give --json-to and a folder.")
    folder, name = command.table_name(table)
    wished = number_of_jobs(jobs)
    refuse_clashes(paths, {"--json-to": (json_to, (".json",))})
    width, colours = _terminal()
    rows, faulty, told = [], False, False
    with work_place("--json-to", json_to) as texts, work_place("--table", folder) as tables:
        orders = [
            command.Order(path, to, units, working, quiet, width, colours, _part(texts, i), json)
            for i, path in enumerate(paths)
        ]
        with (
            Progress(len(orders)) as progress,
            closing(command.outcomes(orders, wished, progress.done)) as outcomes,
        ):
            for outcome in outcomes:
                problems = [*outcome.problems, *put(outcome.order.json)]
                rows.append(outcome.row)
                progress.clear()
                if outcome.story is not None:
                    _print(("\n\n" if told and not quiet else "") + outcome.story)
                    told = True
                _complain(problems)
                faulty = faulty or bool(problems) or not outcome.holds
                progress.draw()
        if tables is not None:
            from soffit.show.verifytable import write

            write(rows, tables.make() / name)
            _complain(put(tables))
    return int(faulty)


@app.command(sort_key=3, usage="soffit report FILE [OPTIONS]")
def report(
    file: str,
    /,
    *,
    to: Literal["aci318-19", "en1992", "aashto-lrfd", "mc2010"] = "en1992",
    output: Output = None,
    paper: Literal["a4", "letter"] | None = None,
    units: Units | None = None,
) -> int:
    """Write the calculation of a beam as PDF: result, drawing, basis, actions, every working, predicted behaviour.

    The cover takes its words from the table [project] of the file. The exit code is 0 where the PDF was written, also
    where a check fails: its cover says so.

    Parameters
    ----------
    file
        Beam file.
    to
        The standard: EN 1992-1-1, ACI 318-19, AASHTO LRFD or fib Model Code 2010.
    output
        PDF file to write, instead of one with the name of the beam file here; one that exists is overwritten.
    paper
        Instead of letter for files in US units and A4 for others.
    units
        Units of what is shown, instead of those of the file; formulas keep those of their standard.
    """
    from soffit.show import report as command

    order = command.wanted(file, to, output, paper, units)
    _announce_compiling()
    with work_place("--output", order.folder) as place:
        text, problems = command.carry_out(order, _part(place, 0))
        problems += put(_part(place, 0))
    return _ended(text, problems)


@app.command(sort_key=3, usage="soffit ends FILE [OPTIONS]")
def ends(
    file: str,
    /,
    *,
    to: Literal["en1992", "aci318", "aashto"] = "en1992",
    picture: Annotated[str | None, _option("NAME")] = None,
    units: Units | None = None,
) -> int:
    """Check the ends of a prestressed beam: bursting, spalling, splitting, plates and supports, with their working.

    Plates stand in the anchor of a tendon: plate = ["150 mm", "150 mm"].

    Parameters
    ----------
    file
        Beam file.
    to
        The standard: EN 1992-1-1, ACI 318 or AASHTO LRFD.
    picture
        Where the drawing goes: a folder, or a name with or without .svg, .png or .pdf.
    units
        Units of what is shown, instead of those of the file.
    """
    from soffit.show.ends_order import carry_out

    (path,) = beam_files([file])
    folder, stem, formats = chart_name(picture, "ends")
    width, colours = _terminal()
    with work_place("--picture", folder) as place:
        text, problems = carry_out(path, to, _part(place, 0), stem, formats, units, width, colours)
        problems += put(_part(place, 0))
    return _ended(text, problems)


@app.command(sort_key=3, usage="soffit tendons FILE [OPTIONS]")
def tendons(
    file: str,
    /,
    *,
    picture: Annotated[str | None, _option("NAME")] = None,
    json: Annotated[str | None, _option("FILE")] = None,
    units: Units | None = None,
) -> int:
    """Tell how the tendons run, what they lose at once, and what they do to the beam.

    Ordinates and least radius, stress after friction and draw-in, losses in the bed, transfer lengths by each standard,
    equivalent loads, secondary moments, line of thrust, and the share of the permanent load that is balanced.

    Parameters
    ----------
    file
        Beam file.
    picture
        Where the sheet goes: a folder, or a name with or without .svg, .png or .pdf.
    json
        JSON file to write.
    units
        Units of what is shown, instead of those of the file.
    """
    from soffit.show import tendons as telling

    path = telling.one_file(file)
    telling.check_json(path, json)
    folder, stem, formats = telling.sheet_name(path, picture)
    width, colours = _terminal()
    with work_place("--picture", folder) as place:
        art = _part(place, 0)
        outcome = telling.carry_out(telling.Order(path, units, width, colours, json, art, stem, formats))
        problems = [*outcome.problems, *put(art)]
    return _ended(outcome.story, problems)


@app.command(sort_key=3, usage="soffit stressing FILE [OPTIONS]")
def stressing(
    file: str,
    /,
    *,
    ram: Annotated[str | None, _option("AREA")] = None,
    bed: Annotated[str | None, _option("LENGTH")] = None,
    tolerance: Annotated[str | None, _option("SHARE")] = None,
    sheet: Annotated[str | None, _option("NAME")] = None,
    csv: Annotated[str | None, _option("FILE")] = None,
    measured: Annotated[str | None, _option("FILE")] = None,
    units: Units | None = None,
) -> int:
    """Print the stressing sheet: force, gauge, elongation, order; or judge the elongations that were measured.

    Torque and turns too, where nuts stress rods. With --measured it says of every tendon whether force and elongation
    agree, and what force the elongation implies.

    Parameters
    ----------
    file
        Beam file.
    ram
        Area of the jack's ram, such as "50 cm2", for the gauge.
    bed
        Length between the anchors of the pretensioning bed, such as "60 m", instead of that of the file.
    tolerance
        Between force and elongation, such as "5 %", instead of that of ACI 318-19.
    sheet
        Where a sheet to print goes: a folder, or a name with or without .svg, .png or .pdf.
    csv
        Form to fill in, as CSV.
    measured
        That form, filled in.
    units
        Units of what is shown, instead of those of the file.
    """
    from soffit.show import stressing as command

    order = command.wanted(file, ram, bed, tolerance, units, sheet, csv, measured)
    width, colours = _terminal()
    with work_place("--sheet", order.drawing[0]) as place:
        story, problems = command.carry_out(order, place, width, colours)
        problems += put(place)
    return _ended(story, problems)


@app.command(sort_key=3, usage="soffit release FILE LOG [OPTIONS]")
def release(
    file: str,
    log: str,
    /,
    *,
    wanted: Annotated[str | None, _option("STRENGTH")] = None,
    cylinders: Annotated[str | None, _option("FILE")] = None,
    by: Literal["Nurse-Saul", "Arrhenius", "EN"] | None = None,
    picture: Annotated[str | None, _option("NAME")] = None,
    units: Units | None = None,
) -> int:
    """Tell from a log of temperatures whether the strands may be released now.

    Maturity or equivalent age over the log, the strength that goes with it, when the wanted strength was or will be
    reached, and what the heat adds to the relaxation of the strands.

    Parameters
    ----------
    file
        Beam file.
    log
        Table (CSV) of the concrete, with columns such as "time (h)" and "temperature (°C)".
    wanted
        Strength for the release, such as "30 MPa", instead of strength_at_transfer of the file.
    cylinders
        Table (CSV) of the mix's own cylinders: "age (h)", "temperature (°C)" and "strength (MPa)", or "maturity (°C·h)"
        and "strength (MPa)"; without it the law is a standard's.
    by
        How temperature counts: as in EN 1992-1-1 unless another is named.
    picture
        Where the chart goes: a folder, or a name with or without .svg, .png or .pdf.
    units
        Units of what is shown, instead of those of the file.
    """
    from soffit.show import release as command

    (path,) = beam_files([file])
    folder, stem, formats = chart_name(picture, "release")
    order = command.Order(path, log, command.wanted_of(wanted), cylinders, by, units, stem, formats)
    width, colours = _terminal()
    with work_place("--picture", folder) as place:
        text, problems = command.carry_out(order, _part(place, 0), width, colours)
        problems += put(_part(place, 0))
    return _ended(text, problems)


@app.command(sort_key=4, usage="soffit schema [OPTIONS]")
def schema(
    *,
    output: Output = None,
    force: Annotated[bool, Flag] = False,
) -> int:
    """Print the JSON Schema of beam files, from which an editor completes and checks them.

    Parameters
    ----------
    output
        File to write instead of printing.
    force
        Overwrite the file if it exists.
    """
    from soffit.beamfile import schema as beam_schema

    found: Any = beam_schema()
    if not isinstance(found, str):
        from json import dumps

        found = dumps(found, indent=2, ensure_ascii=False)
    _give(found, output, force)
    return 0


@app.command(sort_key=1, usage="soffit new KIND [OPTIONS]")
def new(
    kind: Kind,
    /,
    *,
    output: Output = None,
    force: Annotated[bool, Flag] = False,
) -> int:
    """Print a commented beam file to start from.

    Parameters
    ----------
    kind
        How the beam is reinforced.
    output
        File to write instead of printing.
    force
        Overwrite the file if it exists.
    """
    from soffit.beamfile import starter

    _give(starter(kind), output, force)
    if output is not None:
        _complain([f"Wrote {output}; edit it, then run: soffit life {output}"])
    return 0


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0 done, 1 a file at fault, 2 wrongly typed, 130 interrupted.

    Whatever goes wrong, the user reads sentences. With ``argv`` None (the installed command) the streams,
    signals and warnings of the process are set up too.
    """
    try:
        if argv is None:
            _own_process()
        tokens = list(sys.argv[1:] if argv is None else argv)
        from rich.console import Console

        # a console of this call's own: one kept from an earlier call would keep that one's width
        code = app(tokens, console=Console(), exit_on_error=False, print_error=False, result_action="return_value")
        sys.stdout.flush()
        return int(code or 0)
    except (CycloptsError, Usage) as error:
        return _refuse(error)
    except KeyboardInterrupt as error:
        return TERMINATED if isinstance(error, _Terminated) else INTERRUPTED
    except BrokenPipeError:
        return _closed_pipe()
    except Exception as error:
        from soffit.show.batch import sentences

        _complain(sentences(error, ""))
        return 1


class _Terminated(KeyboardInterrupt):
    """The process was asked to end; it tidies up as after Ctrl-C."""


def _own_process() -> None:
    def stop(number: int, frame: FrameType | None) -> None:
        raise _Terminated

    signal.signal(signal.SIGTERM, stop)
    for stream in (sys.stdout, sys.stderr):
        if not (stream.encoding or "").lower().startswith("utf"):
            from soffit.show.plainletters import register

            with suppress(AttributeError):
                stream.reconfigure(errors=register())  # type: ignore[union-attr]
    if os.environ.get("SOFFIT_DEBUG") != "1":
        import warnings

        warnings.simplefilter("ignore")


def _refuse(error: CycloptsError | Usage) -> int:
    text = " ".join(str(error).split())
    if isinstance(error, CycloptsError):
        chain = " ".join(["soffit", *(error.command_chain or ())])
        text = f"{text} (`{chain} --help` lists what it takes.)"
    _complain([text])
    return 2


def _closed_pipe() -> int:
    # whoever read us has gone (`… | head`); give the interpreter somewhere to flush to when it ends
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return BROKEN_PIPE


def _terminal() -> tuple[int | None, str | None]:
    """Columns and colours of the terminal that is written to; none of either for a pipe or a file."""
    if not sys.stdout.isatty():
        return None, None
    from rich.console import Console

    console = Console()
    width = min(console.width, 132)
    if console.is_dumb_terminal or console.legacy_windows:
        return width, None
    return width, "mono" if console.no_color else console.color_system


def _announce_compiling() -> bool:
    """Whether the kernels have yet to be compiled; says so on stderr."""
    from soffit.jit import has_compiled_kernels

    cold = not has_compiled_kernels()
    if cold:
        _complain(["compiling the kernels (once, a few seconds) …"])
    return cold


def _part(place: Place | None, index: int) -> Place | None:
    return None if place is None else place.part(index)


def _give(text: str, output: str | None, force: bool) -> None:
    if output is None:
        _print(text.rstrip("\n"))
    else:
        write_whole(text.rstrip("\n") + "\n", output, force)


def _ended(text: str | None, problems: Sequence[str]) -> int:
    """Print what there is to tell and what was wrong; the exit code."""
    if text is not None:
        _print(text)
    _complain(problems)
    return int(bool(problems))


def _print(text: str) -> None:
    print(text, flush=True)


def _complain(lines: Sequence[str]) -> None:
    for line in lines:
        print(line, file=sys.stderr, flush=True)
