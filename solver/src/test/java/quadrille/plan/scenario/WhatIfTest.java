package quadrille.plan.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.History;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.DemoMouths;

final class WhatIfTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  @Test
  void changesWhatItNamesAndNothingElse() {
    Practice changed =
        new WhatIf(60, List.of("slim straight"), "mepivacaine-3", 0.9, false, true)
            .applyTo(PRACTICE);
    assertEquals(60, changed.appointments().longestVisitMinutes().value());
    assertEquals(0.9, changed.appointments().certainty().value());
    assertEquals(0, changed.appointments().gapMinDays().value());
    assertEquals(0, changed.appointments().gapMaxDays().value());
    assertEquals(PRACTICE.appointments().kitHolds(), changed.appointments().kitHolds());
    assertFalse(changed.inserts().containsKey("slim straight"));
    assertEquals(PRACTICE.inserts().size() - 1, changed.inserts().size());
    assertEquals("mepivacaine-3", changed.preferredAgents().get(0));
    assertEquals(PRACTICE.preferredAgents().size(), changed.preferredAgents().size());
  }

  @Test
  void putsAnAgentFirstThatWasNotPreferredBefore() {
    Practice changed =
        new WhatIf(null, List.of(), "bupivacaine-0.5-200", null, false, false).applyTo(PRACTICE);
    assertEquals("bupivacaine-0.5-200", changed.preferredAgents().get(0));
    assertEquals(PRACTICE.preferredAgents().size() + 1, changed.preferredAgents().size());
  }

  @Test
  void changesTheTrayAndTheFrontTeeth() {
    Practice changed = WhatIf.AS_IT_IS.withTrayHolds(12).withFrontApart(true).applyTo(PRACTICE);
    assertEquals(12, changed.appointments().kitHolds().value());
    assertFalse(changed.appointments().midlineInfiltration());
    assertEquals(
        List.of("tray of 0: must hold 1 to 100 inserts"),
        WhatIf.AS_IT_IS.withTrayHolds(0).faults(PRACTICE));
  }

  @Test
  void aPatientIsMadeNeedleAverseWhereTheHistoryIsKnown() throws Exception {
    Chart chart = DemoMouths.chart("typical.json");
    WhatIf averse = WhatIf.AS_IT_IS.withNeedleAverse(true);
    assertTrue(averse.applyTo(chart).patient().history().alerts().contains(Alert.NEEDLE_AVERSE));
    assertEquals(averse.applyTo(chart), averse.applyTo(averse.applyTo(chart)));
    Chart unknown = chart.withPatient(chart.patient().withHistory(History.UNKNOWN));
    assertEquals(unknown, averse.applyTo(unknown));
  }

  @Test
  void theUsualSettingsEachChangeOneThing() throws Exception {
    Chart chart = DemoMouths.chart("typical.json");
    List<WhatIf> settings = WhatIf.settings(chart, PRACTICE);
    assertEquals(settings.size(), Set.copyOf(settings).size());
    assertEquals(9, settings.size(), "of ten, the longest visit of 90 minutes is as it is");
    for (WhatIf one : settings) {
      assertTrue(
          one.grossFirst()
              || !one.applyTo(PRACTICE).equals(PRACTICE)
              || !one.applyTo(chart).equals(chart),
          one.toString());
    }
  }

  @Test
  void leavesThePracticeAsItIs() {
    assertEquals(PRACTICE, WhatIf.AS_IT_IS.applyTo(PRACTICE));
  }

  @Test
  void namesEveryFaultAndWhatIsAllowed() {
    WhatIf wrong = new WhatIf(5, List.of("spoon"), "cocoa", 1.0, false, false);
    List<String> faults = wrong.faults(PRACTICE);
    assertEquals(4, faults.size(), faults.toString());
    assertEquals("longest visit 5: must be 10 to 480 minutes", faults.get(0));
    assertTrue(faults.get(1).startsWith("insert \"spoon\": the practice has none"), faults.get(1));
    assertTrue(faults.get(1).contains("slim straight"), faults.get(1));
    assertTrue(faults.get(2).startsWith("agent \"cocoa\": is not in"), faults.get(2));
    assertEquals("certainty 1.0: must be 0.001 to 0.999", faults.get(3));
    assertThrows(IllegalArgumentException.class, () -> wrong.applyTo(PRACTICE));
  }
}
