"""A learner's lamps as files: saved, renamed, copied, deleted, each with its way back; log and picture go along."""

import pytest
from dropper import Lamp
from dropper.bench import own_lamp
from dropper.bench.own_lamp import OwnLampError

PNG = b"\x89PNG\r\n\x1a\n" + bytes(40)


@pytest.fixture
def lamp():
    texts = {"dropper": "684J 400V", "bleeder": "1M", "leds": "19 × 2 LEDs", "led": "warm white"}
    return own_lamp.read_board(texts, "Hall lamp").lamp


def names(folder):
    return [path.name for path in own_lamp.own_lamps(folder)]


def test_what_is_saved_is_listed_and_comes_back_as_it_was(tmp_path, lamp):
    path = own_lamp.save(lamp, folder=tmp_path).path
    own_lamp.log_entry(lamp.name, "built", "off its board", folder=tmp_path)
    own_lamp.choose(path, tmp_path)
    assert names(tmp_path) == ["hall_lamp.toml"], "a log or the choice is listed as a lamp"
    assert Lamp.from_toml(path) == lamp
    assert own_lamp.chosen(tmp_path) == path


def test_another_lamp_of_the_same_name_is_never_written_over(tmp_path, lamp):
    path = own_lamp.save(lamp, folder=tmp_path).path
    with pytest.raises(OwnLampError, match="another lamp of yours"):
        own_lamp.save(lamp.replace(name="hall-lamp", dropper="330 nF"), folder=tmp_path)
    assert Lamp.from_toml(path) == lamp


def test_a_deleted_lamp_comes_back_with_log_and_picture(tmp_path, lamp):
    path = own_lamp.save(lamp, folder=tmp_path).path
    own_lamp.log_entry(lamp.name, "built", "off its board", folder=tmp_path)
    own_lamp.keep_picture(path, PNG)
    step = own_lamp.delete(path)
    assert names(tmp_path) == []
    assert own_lamp.picture_of(path) is None
    assert own_lamp.restore(own_lamp.last_deleted(tmp_path)).path == path, "the way back is lost with the session"
    own_lamp.delete(path)
    assert own_lamp.last_deleted(tmp_path) == tmp_path / "deleted" / "hall_lamp_1"
    step.undo()
    assert Lamp.from_toml(path) == lamp
    assert len(own_lamp.read_log(lamp.name, tmp_path).entries) == 1
    assert own_lamp.picture_of(path).read_bytes() == PNG


def test_a_new_name_takes_the_log_along_and_undo_brings_the_old_one_back(tmp_path, lamp):
    path = own_lamp.save(lamp, folder=tmp_path).path
    own_lamp.log_entry(lamp.name, "built", "off its board", folder=tmp_path)
    step = own_lamp.save(lamp.replace(name="stairs"), over=path, folder=tmp_path)
    assert names(tmp_path) == ["stairs.toml"]
    assert len(own_lamp.read_log("stairs", tmp_path).entries) == 1, "the log stayed with the old name"
    step.undo()
    assert names(tmp_path) == ["hall_lamp.toml"]
    assert Lamp.from_toml(path) == lamp
    copied = own_lamp.copy(path, "second one")
    assert names(tmp_path) == ["hall_lamp.toml", "second_one.toml"]
    copied.undo()
    assert names(tmp_path) == ["hall_lamp.toml"]


@pytest.mark.parametrize(("data", "says"), [(b"GIF89a", "neither PNG nor JPEG"), (PNG + bytes(5_000_000), "5 MB")])
def test_a_picture_that_will_not_do_is_refused(tmp_path, lamp, data, says):
    path = own_lamp.save(lamp, folder=tmp_path).path
    with pytest.raises(OwnLampError, match=says):
        own_lamp.keep_picture(path, data)
    assert own_lamp.picture_of(path) is None
