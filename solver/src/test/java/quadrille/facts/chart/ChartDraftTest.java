package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

final class ChartDraftTest {

  private static final String WHOLE =
      """
      case K-1
      numbering iso3950
      18 missing
      11 light | 3 2 3 | 3 2 3
      12 light | 3 2 10b | 3 2 3
      """;

  private static List<String> teeth(ChartDraft draft) {
    return draft.teeth().stream().map(tooth -> tooth.tooth().toString()).toList();
  }

  @Test
  void aWholeDraftIsAChart() {
    ChartDraft draft = ChartDraft.of("draft", WHOLE);
    assertNotNull(draft.chart());
    assertEquals(List.of(), draft.faults());
    assertEquals(List.of("11", "12", "18"), teeth(draft));
  }

  @Test
  void whatIsWholeIsReadAndTheRestIsAtFault() {
    ChartDraft draft =
        ChartDraft.of(
            "draft", WHOLE.replace("K-1", "?") + "11 none | 1 1 1 | 1 1 1\n13 light | 3 ? 3 | 3\n");
    assertNull(draft.chart());
    assertEquals(4, draft.faults().size());
    assertEquals(List.of("18", "11", "12"), teeth(draft));
    assertEquals(Optional.of(Numbering.ISO3950), draft.numbering());
  }

  @Test
  void withoutANumberingNoToothIsKnown() {
    ChartDraft draft = ChartDraft.of("draft", WHOLE.replace("iso3950", "?"));
    assertEquals(Optional.empty(), draft.numbering());
    assertEquals(List.of(), draft.teeth());
  }

  @Test
  void aLoneDepthAndAJumpAreDoubted() throws Exception {
    Chart chart = ChartReader.lines("mouth.teeth", WHOLE);
    UnlikelyDepth lone = new UnlikelyDepth(Tooth.ofIso(12), Aspect.FACIAL, 2, 10, 3, null);
    assertEquals(List.of(lone), UnlikelyDepth.of(chart.teeth(), Optional.empty()));
    Chart before =
        ChartReader.lines("mouth.teeth", WHOLE.replace("10b", "4").replace("3\n", "8\n"));
    assertEquals(
        List.of(
            new UnlikelyDepth(Tooth.ofIso(11), Aspect.LINGUAL, 2, 3, 3, 8),
            new UnlikelyDepth(Tooth.ofIso(12), Aspect.FACIAL, 2, 10, 3, 4),
            new UnlikelyDepth(Tooth.ofIso(12), Aspect.LINGUAL, 2, 3, 10, 8)),
        UnlikelyDepth.of(chart.teeth(), Optional.of(before)));
  }
}
