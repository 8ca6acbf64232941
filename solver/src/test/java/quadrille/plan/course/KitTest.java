package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Quadrant;

final class KitTest {
  private static final Visit SAMPLE = SampleCourses.everything().visits().get(0);

  @Test
  void listsWhatOneVisitNeeds() {
    Kit kit = Kit.of(List.of(SAMPLE));
    assertEquals(1, kit.sterileSets());
    assertEquals(Map.of("slim curved right", 1, "sleeved for implants", 1), kit.inserts());
    assertEquals(
        List.of("slim curved right", "sleeved for implants"), List.copyOf(kit.inserts().keySet()));
    assertEquals(1, kit.sleeves());
    assertEquals(Map.of("articaine-4-200", 2), kit.cartridges());
    assertEquals(1.5 + 0.6, kit.ml().get("articaine-4-200"), 1e-12);
    // Half a cartridge of gel is one opened.
    assertEquals(1, kit.gelCartridges());
  }

  @Test
  void sharesNothingBetweenVisits() {
    Kit kit = Kit.of(List.of(SAMPLE, SAMPLE, SAMPLE));
    assertEquals(3, kit.sterileSets());
    assertEquals(3, kit.inserts().get("slim curved right"));
    assertEquals(3, kit.sleeves());
    assertEquals(6, kit.cartridges().get("articaine-4-200"));
    assertEquals(3, kit.gelCartridges());
  }

  @Test
  void namesAllAgentsOfAVisitThatGivesSeveral() {
    Visit mixed =
        visit(
            List.of("a"),
            List.of(
                new GivenInjection("long buccal", Quadrant.LR, null, "mepivacaine-3", 0.3),
                new GivenInjection("inferior alveolar", Quadrant.LR, null, "lidocaine-2-100", 1.5)),
            2);
    Kit kit = Kit.of(List.of(mixed, SAMPLE));
    assertEquals(
        Map.of("lidocaine-2-100 and mepivacaine-3", 2, "articaine-4-200", 2), kit.cartridges());
  }

  @Test
  void listsAnInsertThatTheTrayLacks() {
    Visit lacking = visit(List.of("sleeved for implants"), List.of(), 0);
    assertEquals(List.of("sleeved for implants", "slim curved right"), Kit.inserts(lacking));
    assertEquals(List.of("slim curved right"), Kit.missingFromTray(lacking));
    assertEquals(List.of(), Kit.missingFromTray(SAMPLE));
  }

  @Test
  void isEmptyWithoutVisits() {
    Kit kit = Kit.of(List.of());
    assertEquals(new Kit(0, Map.of(), 0, kit.cartridges(), kit.ml(), 0), kit);
    assertEquals(Map.of(), kit.cartridges());
  }

  private static Visit visit(List<String> tray, List<GivenInjection> injections, int cartridges) {
    return new Visit(
        1,
        NumbSide.RIGHT,
        30,
        0.1,
        SAMPLE.areas(),
        injections,
        List.of(),
        0,
        cartridges,
        0,
        0,
        SAMPLE.sequence(),
        tray,
        List.of(),
        List.of());
  }
}
