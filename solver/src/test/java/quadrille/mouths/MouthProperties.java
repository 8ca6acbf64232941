package quadrille.mouths;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;

/** Holds that the arbitraries reach a property, and that areas partition any mouth. */
final class MouthProperties {

  @Property
  @Domain(Mouths.class)
  void everyToothStandsInExactlyOneArea(@ForAll Chart chart) {
    assertFalse(chart.caseName().isEmpty());
    assertEquals(
        chart.worked().stream().map(tooth -> tooth.tooth()).toList(),
        Area.of(chart).stream().flatMap(area -> area.teeth().stream()).sorted().toList());
  }
}
