"""Tables of numbers: every layout that instruments write, read alike; what is wrong, named by line and column."""

import csv
import io

import numpy as np
import pytest
from draws import examples
from dropper.bench import table
from dropper.bench.table import TableError, read
from hypothesis import given, settings
from hypothesis import strategies as some

ROWS = np.array([[-1e-3, 0.5], [0.0, 1.25], [1e-3, -2.75]])
WRITTEN = {
    "comma": "Time (s),Voltage (V)\n-1e-3,0.5\n0,1.25\n0.001,-2.75\n",
    "no last line end": "Time (s),Voltage (V)\n-1e-3,0.5\n0,1.25\n0.001,-2.75",
    "Windows line ends": "Time (s),Voltage (V)\r\n-1e-3,0.5\r\n0,1.25\r\n0.001,-2.75\r\n",
    "semicolon, decimal comma": "Time [s];Voltage [V]\n-1e-3;0,5\n0;1,25\n0,001;-2,75\n",
    "tab, decimal comma": "Time / s\tVoltage / V\n-1e-3\t0,5\n0\t1,25\n0,001\t-2,75\n",
    "spaces": "  Time/s   Voltage/V\n  -1e-3    0.5\n   0     1.25\n 0.001  -2.75\n",
    "padded and signed": "Time (s), Voltage (V)\n-1.0E-03, +5.00E-01\n+0.0E+00, +1.25E+00\n+1.0E-03, -2.75E+00\n",
    "a line of units": "Time,Voltage\ns,V\n-1e-3,0.5\n0,1.25\n0.001,-2.75\n",
    "bracketed units below": "Time,Voltage\n(s),(V)\n\n-1e-3,0.5\n0,1.25\n0.001,-2.75\n",
    "metadata": "Model,ABC-1\nSamples,3\n\nTime in s,Voltage in V\n-1e-3,0.5\n0,1.25\n0.001,-2.75\n",
    "comments": "# bench 2\nTime (s),Voltage (V)\n-1e-3,0.5\n# lamp warm\n0,1.25\n\n0.001,-2.75\n",
    "quoted": '"Time (s)","Voltage (V)"\n"-1e-3","0,5"\n"0","1,25"\n"0,001","-2,75"\n',
    "a delimiter at every end": "Time (s),Voltage (V),\n-1e-3,0.5,\n0,1.25,\n0.001,-2.75,\n",
}


@pytest.mark.parametrize("how", WRITTEN)
def test_the_same_table_in_every_layout(how):
    found = read(WRITTEN[how])
    assert list(found.columns) == ["Time", "Voltage"] and found.units == {"Time": "s", "Voltage": "V"}
    np.testing.assert_allclose(np.array(list(found.columns.values())).T, ROWS, rtol=1e-15)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "latin-1"])
def test_every_encoding(encoding, tmp_path):
    text = "Zeit (s);Spannung ß (µV)\r\n0;1,5\r\n1;2\r\n"
    path = tmp_path / "scope.csv"
    path.write_bytes(text.encode(encoding))
    for found in (read(path), read(path.read_bytes()), read(str(path))):
        assert list(found.columns) == ["Zeit", "Spannung ß"] and found.units["Spannung ß"] == "µV"
        np.testing.assert_allclose(found.si("Spannung ß", "V"), [1.5e-6, 2e-6])


def test_lines_are_those_of_the_file():
    assert list(read(WRITTEN["comments"]).lines) == [3, 5, 7]
    assert list(read(WRITTEN["metadata"]).lines) == [5, 6, 7]
    assert read(WRITTEN["metadata"]).about == {"Model": "ABC-1", "Samples": "3"}


def test_gaps_and_overloads_become_nan():
    found = read("t,u\n0,\n1,nan\n2,9.9E37\n3,-inf\n4,5\n5,--\n")
    assert np.isnan(found.columns["u"]).tolist() == [True, True, True, True, False, True]


def test_columns_without_names_or_with_the_same_get_their_own():
    assert list(read("1,2\n3,4\n").columns) == ["column 1", "column 2"]
    assert list(read("U,U,\n1,2,3\n").columns) == ["U", "U 2", "column 3"]
    assert read("s,V\n1,2\n").units == {"s": "s", "V": "V"}


def test_units_with_prefixes():
    found = read("t (ms),I [mA],U (kV),R (Volt)\n2,3,4,5\n")
    assert [found.si(*each)[0] for each in (("t", "s"), ("I", "A"), ("U", "V"), ("R", "V"))] == [2e-3, 3e-3, 4e3, 5]
    with pytest.raises(TableError, match=r"column 2 \(I\) is in 'mA'; wanted is V"):
        found.si("I", "V")
    with pytest.raises(TableError, match="no column 'X'; there are t, I, U, R"):
        found.si("X", "V")


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("t,v\n0,1\n1,abc\n", 3, 2, "'abc' is no number"),
        ("t,v\n0,abc\n1,2\n2,3\n", 2, 2, "'abc' is no number"),
        ("0,a\n1,b\n", 1, 2, "'a' is no number"),
        ("t,v\n0,1\n1\n", 3, 2, "has 1 cell.*allowed are 2.*cut off"),
        ("t,v\n0,1\n1,2,5\n", 3, 3, "has 3 cells.*decimal comma"),
        ("t v\n0 1\n1 2 3\n", 3, 3, "has 3 cells, apart by spaces"),
        ("t v\n0 1\n1\n", 3, 2, "has 1 cell"),
        ("t;v\n0,1;1\n1.5;2\n0,1;3\n", 3, 1, "decimal comma"),
        ("t;v\n1;1\n2;1 000\n", 3, 2, "'1 000' is no number"),
        ("t,v\n0,1\n# mid\n1,0x10\n", 4, 2, "'0x10'"),
        ("hello\nworld\n", 1, 1, "none of the first 2 lines"),
        ("\n\n", 1, 1, "empty"),
        (b"\x89PNG\r\n\0\0\n", 1, 1, "no text"),
        (b"", 1, 1, "empty"),
    ],
)
def test_what_is_wrong_is_named_by_line_and_column(text, line, column, said):
    with pytest.raises(TableError, match=said) as caught:
        read(text)
    assert (caught.value.line, caught.value.column) == (line, column)
    assert f"line {line}, column {column}" in str(caught.value) and "llowed" in str(caught.value)


def test_a_bad_cell_far_down_is_found_at_its_line(monkeypatch):
    """Blocks are read one by one: the line has to be counted through all of them."""
    from dropper.bench.table import reader

    monkeypatch.setattr(reader, "BLOCK", 1000)
    rows = [f"{n},{n * n}" for n in range(5000)]
    rows[4321] = "4321,oops"
    with pytest.raises(TableError, match=r"line 4323, column 2 \(v\): 'oops'"):
        read("t,v\n" + "\n".join(rows))
    rows[4321] = "4321,1"
    rows[2500] += "\n# a word"
    found = read("t,v\n" + "\n".join(rows))
    assert len(found) == 5000 and found.lines[-1] == 5002 and found.columns["t"][-1] == 4999


def test_a_missing_file_a_wrong_mark_an_endless_line():
    with pytest.raises(TableError, match=r"none\.csv: cannot be opened"):
        read("none.csv")
    with pytest.raises(TableError, match="allowed are '.' and ','"):
        read("1,2\n", decimal="-")
    with pytest.raises(TableError, match="allowed are comma, semicolon"):
        read("1,2\n", delimiter="|")
    with pytest.raises(TableError, match="longer than"):
        read("1," * 60_000 + "1\n")
    with pytest.raises(TableError, match="line 2, column 257: too wide; allowed are 256 columns"):
        read("a\n" + "1," * 40_000 + "1\n")
    for path in ("a\0b", "a" * 5000, "/"):
        with pytest.raises(TableError, match="cannot be opened"):
            read(path)
    with pytest.raises(TableError, match="line 1, column 1: longer than"):
        read(b"1" * 10_000_000)
    with pytest.raises(TableError, match="encoding: 'none such' does not read table"):
        read(b"1,2\n", encoding="none such")
    with pytest.raises(TypeError, match="source: None is no table; give the path"):
        read(None)


NUMBERS = some.floats(-1e9, 1e9, allow_nan=False).map(lambda x: float(f"{x:.6g}"))


@settings(max_examples=examples(60))
@given(
    rows=some.lists(some.tuples(NUMBERS, some.one_of(some.none(), NUMBERS), NUMBERS), min_size=1, max_size=20),
    mark=some.sampled_from([",", ";", "\t"]),
    ends=some.sampled_from(["\n", "\r\n"]),
)
def test_what_the_csv_module_writes_is_read_back(rows, mark, ends):
    """Python's csv module as the writer; gaps in the middle column; decimal comma where the delimiter allows it."""
    comma = mark != ","
    file = io.StringIO()
    writer = csv.writer(file, delimiter=mark, lineterminator=ends)
    writer.writerow(["t (s)", "u (V)", "i (A)"])
    for row in rows:
        cells = ["" if x is None else repr(x) for x in row]
        writer.writerow([cell.replace(".", ",") if comma else cell for cell in cells])
    found = table.read(file.getvalue(), delimiter=mark, decimal="," if comma else ".")
    wanted = np.array([[np.nan if x is None else x for x in row] for row in rows])
    np.testing.assert_allclose(np.array(list(found.columns.values())).T, wanted, rtol=1e-14)
    assert found.units == {"t": "s", "u": "V", "i": "A"}


@settings(max_examples=examples(80))
@given(text=some.one_of(some.text(max_size=200).map(lambda t: t + "\n"), some.binary(max_size=200)))
def test_no_rubbish_raises_anything_but_a_table_error(text):
    try:
        read(text)
    except TableError as error:
        assert "table" in str(error)


def test_what_a_file_holds_is_not_repeated_where_it_is_no_table(tmp_path):
    """A path may lead to a file that was not meant: its kind of fault is said, and nothing of what it holds."""
    path = tmp_path / "other.csv"
    for text in ("keeper:x:0:0:secret\n", "name\nsecret\n", "1,secret\n2,secret\n", "t,v\n1,2\n3,secret\n"):
        path.write_text(text)
        with pytest.raises(TableError, match=r"other\.csv: line \d, column \d") as caught:
            read(path)
        assert "secret" not in str(caught.value) and "allowed" in str(caught.value).lower()
        with pytest.raises(TableError) as pasted:
            read(text)
        assert ("'secret'" in str(pasted.value)) == ("," in text), "what is pasted is before a person's eyes"


def test_a_table_too_large_is_refused_in_a_sentence(tmp_path, monkeypatch):
    from dropper.bench.table import reader

    rows = "t,v\n" + "".join(f"{n},{n}\n" for n in range(5000))
    path = tmp_path / "long.csv"
    path.write_text(rows)
    monkeypatch.setattr(reader, "BLOCK", 1000)
    monkeypatch.setattr(reader, "MOST_NUMBERS", 4000)
    with pytest.raises(TableError, match="more than 2 000 lines of 2 numbers; cut it shorter, or sample more slowly"):
        read(path)
    monkeypatch.setattr(reader, "LARGEST", 10_000)
    for source in (path, rows.encode()):
        with pytest.raises(TableError, match="longer than 0 MB; cut it shorter"):
            read(source)
