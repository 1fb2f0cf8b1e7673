"""Grades as collectors type them."""

import pytest

from exergue.coins import grades


@pytest.mark.parametrize(
    "typed, written",
    [
        ("vf20", "VF-20"), ("VF-20", "VF-20"), ("vf 20", "VF-20"), ("VF–20", "VF-20"), ("xf 45", "EF-45"),
        ("EF", "EF"), ("Extra Fine 40", "EF-40"), ("ex. fine", "EF"), ("Good", "G"), ("g06", "G-6"),
        ("About Good", "AG"), ("po1", "P-1"), ("basal state", "P"), ("20", "VF-20"), ("64", "MS-64"),
        ("Proof 65 RD", "PF-65 RD"), ("pr65dcam", "PF-65 DCAM"), ("Ultra Cameo Proof 69", "PF-69 DCAM"),
        ("ms64rb", "MS-64 RB"), ("MS-64+ Red-Brown", "MS-64+ RB"), ("ms 65 5fs", "MS-65 5FS"),
        ("MS-66 full bell lines", "MS-66 FBL"), ("AU details cleaned", "AU Details (cleaned)"),
        ("cleaned AU details", "AU Details (cleaned)"), ("VF20 cleaned", "VF-20 Details (cleaned)"),
        ("AU-50 BN Details - Env. damage", "AU-50 BN Details (env. damage)"), ("Unc", "MS"), ("MS details, red spots", "MS Details (red spots)"), ("BU", "MS"),
        ("Gem BU", "MS-65"), ("Choice VF", "VF-30"), ("superb gem proof", "PF-67"), ("SP-65", "SP-65"),
        ("VF30 net F12", "VF-30 net F-12"), ("vf-30 details porous, net f-12", "VF-30 Details (porous) net F-12"),
        ("ＶＦ２０", "VF-20"), ("  au  58 + ", "AU-58+"), ("G-5", "G-5"), ("vg7", "VG-7"),
    ],
)
def test_forgives_what_collectors_type(typed, written):
    assert str(grades.parse(typed)) == written


@pytest.mark.parametrize(
    "typed, says",
    [
        ("MS-75", "MS-75 is off the ladder, which runs from 1 to 70."),
        ("VF-67", "Very Fine (VF) is 20, 25, 30 or 35; 67 belongs to Mint State (MS)."),
        ("VF-22", "Very Fine (VF) is 20, 25, 30 or 35; there is no step 22."),
        ("AG-4", "About Good (AG) is 3 alone; 4 belongs to Good (G)."),
        ("PF-22", "PF-22 is no step of the ladder; the nearest are 20 and 25."),
        ("22", "22 is no step of the ladder from 1 to 70."),
        ("MS-0", "MS-0 is off the ladder, which runs from 1 to 70."),
        ("VF/XF", "“VF/XF” names two grades; keep the lower one and put the other in a note."),
        ("AU-", "The ladder has no minus (“AU-”); give the step below, or a note."),
        ("nice vf", "“nice” in “nice vf” is not part of a grade; keep it in a note."),
        ("MS65 (nice)", "“(nice)” is not part of a grade; keep it in a note."),
        ("MS-64 CAM", "CAM (cameo) is not said of MS, only of PF, SP."),
        ("MS-64 RB RD", "RB and RD cannot both be true of one coin."),
        ("MS-70+", "70 is the top of the ladder and takes no plus."),
        ("VF-20 net EF-40", "The net grade must be a plain one below VF-20."),
        ("", "The grade is empty."),
        ("cleaned", "“cleaned” names no grade."),
        ("((", "The brackets in “((” cannot be read as a grade."),
    ],
)
def test_says_in_one_sentence_why_it_is_no_grade(typed, says):
    with pytest.raises(grades.BadGrade) as refused:
        grades.parse(typed)
    assert str(refused.value) == says


@pytest.mark.parametrize(
    "text, name",
    [
        ("VF-20", "Very Fine 20"), ("VF", "Very Fine"), ("MS-64 RB", "Mint State 64, red-brown"),
        ("PF-55", "Proof 55, impaired"), ("AU-50 Details (cleaned)", "About Uncirculated 50 details (cleaned)"),
    ],
)
def test_names_a_grade_in_words(text, name):
    assert grades.parse(text).name == name


def test_a_step_without_number_stands_for_its_lowest_and_reaches_its_highest():
    grade = grades.parse("VF")
    assert (grade.number, grade.highest) == (20, 35)


def test_a_net_grade_counts_by_its_lower_number():
    grade = grades.parse("VF-30 net F-12")
    assert (grade.number, grade.sharpness) == (12, 30)


def test_a_proof_below_sixty_is_impaired():
    assert grades.parse("PF-58").impaired
    assert not grades.parse("PF-60").impaired
    assert not grades.parse("AU-58").impaired
