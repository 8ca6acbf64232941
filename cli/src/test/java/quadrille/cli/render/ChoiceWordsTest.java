package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.plan.scenario.WhatIf;

final class ChoiceWordsTest {

  @Test
  void saysWhatTheConditionsAre() {
    assertEquals("as it is", ChoiceWords.conditions(WhatIf.AS_IT_IS));
    assertEquals(
        "visits of at most 60 min; without slim straight; mepivacaine-3 first; 90 of 100 visits end"
            + " in time; gross pass of the whole mouth first; all within 24 h",
        ChoiceWords.conditions(
            new WhatIf(60, List.of("slim straight"), "mepivacaine-3", 0.9, true, true)));
  }
}
