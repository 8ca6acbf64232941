package quadrille.facts.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

final class AreaRefTest {

  @Test
  void cutAreasAreNamedByTheNumbering() {
    AreaRef cut = AreaRef.of("UR posterior 18-17");
    assertEquals("UR posterior 18-17", cut.name(Numbering.ISO3950));
    assertEquals("UR posterior 1-2", cut.name(Numbering.UNIVERSAL));
    assertEquals("LL anterior 24", AreaRef.of("LL anterior 31").name(Numbering.UNIVERSAL));
    assertEquals("UR posterior", AreaRef.of("UR posterior").name(Numbering.UNIVERSAL));
  }

  @ParameterizedTest
  @EnumSource
  void aNameIsReadBack(Numbering numbering) {
    for (Tooth from : Tooth.values()) {
      for (Tooth to : Tooth.values()) {
        Optional<AreaRef> part = AreaRef.of(from.quadrant(), Half.of(from), from, to);
        boolean legal =
            from.quadrant() == to.quadrant()
                && from.posterior() == to.posterior()
                && from.position() >= to.position();
        assertEquals(legal, part.isPresent(), from + " " + to);
        part.ifPresent(area -> assertEquals(part, AreaRef.named(area.name(numbering), numbering)));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "UR",
        "UR molars",
        "UR posterior ",
        " UR posterior",
        "UR posterior 11",
        "UR posterior 17-18",
        "UR posterior 28-27",
        "UR posterior 18-",
        "UR posterior 18-17-16",
        "UR posterior 19",
        "ur posterior"
      })
  void whatNamesNoAreaIsNone(String name) {
    assertEquals(Optional.empty(), AreaRef.named(name, Numbering.ISO3950));
  }

  @Test
  void teethThatCutNoPartAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new AreaRef(Quadrant.UR, Half.POSTERIOR, Tooth.ofIso(18), null));
    assertThrows(
        IllegalArgumentException.class,
        () -> new AreaRef(Quadrant.UR, Half.ANTERIOR, Tooth.ofIso(18), Tooth.ofIso(17)));
  }

  @Test
  void holdsTheTeethBetweenItsEnds() {
    AreaRef cut = AreaRef.of("UR posterior 17-15");
    assertTrue(cut.holds(Tooth.ofIso(16)));
    assertTrue(cut.holds(Tooth.ofIso(15)));
    assertFalse(cut.holds(Tooth.ofIso(18)));
    assertFalse(cut.holds(Tooth.ofIso(14)));
    assertFalse(cut.holds(Tooth.ofIso(26)));
  }
}
