package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;

final class WordsTest {

  @Test
  void clockGoesOnPastTheHour() {
    assertEquals("0:00", Words.clock(0));
    assertEquals("12:05", Words.clock(725));
    assertEquals("75:30", Words.clock(4530));
  }

  @Test
  void aSmallRiskNeverReadsAsNone() {
    assertEquals("0\u00a0%", Words.percent(0));
    assertEquals("<1\u00a0%", Words.percent(0.0004));
    assertEquals("17\u00a0%", Words.percent(0.174));
    assertEquals("100\u00a0%", Words.percent(1));
  }

  @Test
  void numbersHaveNoIdleZeros() {
    assertEquals("132", Words.number(132, 1));
    assertEquals("0.0165", Words.number(0.0165, 4));
    assertEquals("1.5", Words.number(1.50, 2));
    assertEquals("100", Words.number(100, 0));
  }

  @Test
  void cutAreasAreNamedByTheChartsOwnNumbering() {
    assertEquals("UR posterior 1-2", Words.area("UR posterior 18-17", chart(Numbering.UNIVERSAL)));
    assertEquals(
        "LL anterior 24, facial", Words.area("LL anterior 31, facial", chart(Numbering.UNIVERSAL)));
    assertEquals("UR posterior", Words.area("UR posterior", chart(Numbering.UNIVERSAL)));
    assertEquals("UR posterior 18-17", Words.area("UR posterior 18-17", chart(Numbering.ISO3950)));
    assertEquals("3 31", Words.isoTeeth("16 47", Numbering.UNIVERSAL));
  }

  private static Chart chart(Numbering numbering) {
    Patient patient = new Patient(null, null, null, Set.of(), null, false);
    return new Chart("K-1", null, numbering, patient, List.of());
  }
}
