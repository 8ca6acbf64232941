package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

/** Plan files that are broken, and what is said of them: place, what was found, what is allowed. */
final class HostilePlanTest {

  private static final String PLAN = SampleCourses.file(1);

  private static List<String> faults(String text) {
    InvalidDocumentException invalid =
        assertThrows(InvalidDocumentException.class, () -> PlanReader.read("plan.json", text));
    return invalid.faults().stream().map(Fault::message).toList();
  }

  /** The plan with one piece of its text replaced. */
  private static String changed(String old, String replacement) {
    int at = PLAN.indexOf(old);
    assertTrue(at >= 0, old);
    return PLAN.substring(0, at) + replacement + PLAN.substring(at + old.length());
  }

  private static void assertFault(String old, String replacement, String fault) {
    assertEquals(List.of(fault), faults(changed(old, replacement)));
  }

  @Test
  void anEmptyFile() {
    assertEquals(
        List.of("plan.json:1: found an empty document; allowed: an object"), faults("  \n"));
  }

  @Test
  void aFileCutShort() {
    assertEquals(1, faults(PLAN.substring(0, PLAN.length() / 2)).size());
  }

  @Test
  void anotherKindOfFile() {
    assertEquals(
        List.of(
            "plan.json:2 /schema: found \"quadrille/chart/1\"; allowed: quadrille/plan/2 or"
                + " quadrille/plan/1. Did you mean \"quadrille/plan/1\"?"),
        faults(SampleCourses.file(2).replace("quadrille/plan/2", "quadrille/chart/1")));
  }

  /** A file of version 2 names its teeth as it says. */
  @Test
  void aToothOfTheOtherNumbering() {
    assertEquals(
        List.of(
            "/visits/0/watchSites/0/tooth: found \"46\"; allowed: a tooth's number in quotes, \"1\""
                + " to \"32\""),
        faults(SampleCourses.file(2).replace("\"tooth\": \"30\"", "\"tooth\": \"46\"")).stream()
            .map(fault -> fault.substring(fault.indexOf('/')))
            .toList());
  }

  @Test
  void anAreaCutBetweenTeethOfAnother() {
    assertEquals(
        List.of(
            "/visits/0/areaRefs/0: found an object; allowed: teeth of LR posterior, \"from\" the one"
                + " that is farther from the midline or the same"),
        faults(
                SampleCourses.file(2)
                    .replaceFirst(
                        "\"from\": \"31\", \"to\": \"30\"", "\"from\": \"30\", \"to\": \"31\""))
            .stream()
            .map(fault -> fault.substring(fault.indexOf('/')))
            .toList());
  }

  @Test
  void anAreaOfAFirstVersionThatIsNone() {
    assertFault(
        "\"area\": \"LR posterior 47-46\"",
        "\"area\": \"LR molars\"",
        "plan.json:31 /visits/0/sequence/4/area: found \"LR molars\"; allowed: half a quadrant, such as"
            + " \"UR posterior\", or a part, such as \"UR posterior 18-17\"");
  }

  @Test
  void aListInPlaceOfThePlan() {
    assertEquals(List.of("plan.json:1: found an empty array; allowed: an object"), faults("[]"));
  }

  @Test
  void aMissingPart() {
    assertFault(
        "\"cartridges\": 2,\n      \"gel",
        "\"gel",
        "plan.json:6 /visits/0: found no \"cartridges\"; allowed: a whole number from 0 to 1000");
  }

  @Test
  void anUnknownKey() {
    assertFault(
        "\"sleeves\"",
        "\"sleves\": 1, \"sleeves\"",
        "plan.json:25 /visits/0/sleves: found key \"sleves\"; allowed: visit, numbSide, "
            + "expectedMinutes, bookedMinutes, overrunRisk, areas, tipChanges, injections, doses, "
            + "epinephrineMg, cartridges, gelCartridges, sleeves, sequence, tray, watch or "
            + "cautions. Did you mean \"sleeves\"?");
  }

  @Test
  void aKeyGivenTwice() {
    assertFault(
        "\"case\": \"K-1042\"",
        "\"case\": \"K-1042\",\n  \"case\": \"K-1043\"",
        "plan.json:4 /case: found key \"case\" a second time (first on line 3); allowed: each key "
            + "once");
  }

  @Test
  void anUnknownKindOfEntry() {
    assertFault(
        "\"do\": \"setup\"",
        "\"do\": \"polish\"",
        "plan.json:27 /visits/0/sequence/0/do: found \"polish\"; allowed: setup, inject, wait, "
            + "change-tip, reposition, debride or close");
  }

  @Test
  void aNegativeLength() {
    assertFault(
        "\"minutes\": 10, \"do\": \"setup\"",
        "\"minutes\": -10, \"do\": \"setup\"",
        "plan.json:27 /visits/0/sequence/0/minutes: found -10; allowed: a number from 0.01 to 1440");
  }

  @Test
  void anEntryOfNoLength() {
    assertFault(
        "\"minutes\": 10, \"do\": \"setup\"",
        "\"minutes\": 0, \"do\": \"setup\"",
        "plan.json:27 /visits/0/sequence/0/minutes: found 0; allowed: a number from 0.01 to 1440");
  }

  @Test
  void aKeyOfAnotherKindOfEntry() {
    assertFault(
        "\"do\": \"setup\"",
        "\"do\": \"setup\", \"what\": \"tea\"",
        "plan.json:27 /visits/0/sequence/0/what: found key \"what\"; allowed: startMinute, minutes "
            + "or do");
  }

  @Test
  void aToothThatDoesNotExist() {
    assertFault(
        "\"teeth\": [\"46\", \"47\"]",
        "\"teeth\": [\"46\", \"49\"]",
        "plan.json:31 /visits/0/sequence/4/teeth/1: found \"49\"; allowed: an ISO 3950 code in "
            + "quotes, \"11\" to \"48\"");
    assertFault(
        "\"teeth\": [\"46\", \"47\"]",
        "\"teeth\": [\"46\", 47]",
        "plan.json:31 /visits/0/sequence/4/teeth/1: found 47; allowed: an ISO 3950 code in "
            + "quotes, \"11\" to \"48\"");
  }

  @Test
  void aToothTwice() {
    assertFault(
        "\"teeth\": [\"46\", \"47\"]",
        "\"teeth\": [\"46\", \"46\"]",
        "plan.json:31 /visits/0/sequence/4/teeth/1: found \"46\" a second time; allowed: each tooth "
            + "once");
  }

  @Test
  void anImplantsStepWithoutItsTooth() {
    assertFault(
        "\"tooth\": \"26\", ",
        "",
        "plan.json:34 /visits/0/sequence/7: found no \"tooth\"; allowed: an ISO 3950 code in "
            + "quotes, \"11\" to \"48\"");
    assertFault(
        "\"tooth\": \"26\", ",
        "\"tooth\": \"36\", ",
        "plan.json:34 /visits/0/sequence/7/tooth: found \"36\"; allowed: the one tooth in "
            + "\"teeth\"");
  }

  @Test
  void aSideThatIsNotTheQuadrants() {
    assertFault(
        "\"side\": \"right\"",
        "\"side\": \"left\"",
        "plan.json:15 /visits/0/injections/0/side: found \"left\"; allowed: right, the side of LR");
  }

  @Test
  void aRiskAboveOne() {
    assertFault(
        "\"overrunRisk\": 0.1235",
        "\"overrunRisk\": 12.35",
        "plan.json:11 /visits/0/overrunRisk: found 12.35; allowed: a number from 0 to 1");
  }

  @Test
  void aNumberInQuotes() {
    assertFault(
        "\"bookedMinutes\": 30",
        "\"bookedMinutes\": \"30\"",
        "plan.json:10 /visits/0/bookedMinutes: found \"30\"; allowed: a whole number from 1 to 1440, "
            + "without quotes");
  }

  @Test
  void aGapThatEndsBeforeItStarts() {
    assertFault(
        "\"gapDays\": { \"min\": 7, \"max\": 14 }",
        "\"gapDays\": { \"min\": 7, \"max\": 6 }",
        "plan.json:44 /gapDays/max: found 6; allowed: at least \"min\", 7");
  }

  @Test
  void numbersOutOfAllProportion() {
    assertFault(
        "\"ml\": 1.5",
        "\"ml\": 1e999999999",
        "plan.json:15 /visits/0/injections/0/ml: found 1e999999999; allowed: a number from 0.01 to "
            + "100");
  }

  @Test
  void everyFaultAtOnce() {
    String text =
        changed("\"startMinute\": 0,", "\"startMinute\": null,")
            .replace("\"numbSide\": \"right\"", "\"numbSide\": \"rigt\"")
            .replace("\"pass\": \"fine\", \"insert\"", "\"pass\": \"final\", \"insert\"")
            .replace("\"seconds\": 1457", "\"seconds\": 1457.5");
    assertEquals(
        List.of(
            "plan.json:8 /visits/0/numbSide: found \"rigt\"; allowed: right, left, none or both. "
                + "Did you mean \"right\"?",
            "plan.json:27 /visits/0/sequence/0/startMinute: found null; allowed: a number from 0 to "
                + "1440",
            "plan.json:31 /visits/0/sequence/4/pass: found \"final\"; allowed: gross, fine, "
                + "finishing or implant-care",
            "plan.json:55 /cost/seconds: found 1457.5; allowed: a whole number from 0 to "
                + "2147483647"),
        faults(text));
  }
}
