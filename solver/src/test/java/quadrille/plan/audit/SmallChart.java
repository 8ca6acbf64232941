package quadrille.plan.audit;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.History;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/**
 * A few invented teeth: 46 heavy and 6 mm deep (numb), 44 and 11 shallow, 11 crowded, 36 at 4 mm,
 * an implant at 26, and 18 planned for extraction.
 */
final class SmallChart {

  Integer ageYears = 54;
  Double weightKg = 70.0;
  Integer longestVisitMinutes;
  Quadrant startWith;
  History history = History.of(Set.of());
  private final TreeMap<Tooth, ToothChart> teeth = new TreeMap<>();

  SmallChart() {
    natural(46, Deposit.HEAVY, 6);
    natural(44, Deposit.LIGHT, 3);
    natural(36, Deposit.LIGHT, 4);
    put(26, ToothStatus.IMPLANT, Deposit.LIGHT, 3, Set.of());
    put(11, ToothStatus.NATURAL, Deposit.LIGHT, 3, EnumSet.of(Feature.CROWDED));
    put(18, ToothStatus.PLANNED_EXTRACTION, Deposit.HEAVY, 9, Set.of());
  }

  SmallChart natural(int iso, Deposit deposit, int depthMm) {
    return put(iso, ToothStatus.NATURAL, deposit, depthMm, Set.of());
  }

  /** An implant, 3 mm deep on its facial aspect. */
  SmallChart implant(int iso, int lingualMm) {
    Tooth tooth = Tooth.ofIso(iso);
    teeth.put(
        tooth,
        new ToothChart(
            tooth,
            ToothStatus.IMPLANT,
            Deposit.LIGHT,
            0,
            0,
            Set.of(),
            AspectReading.even(3),
            AspectReading.even(lingualMm)));
    return this;
  }

  SmallChart put(int iso, ToothStatus status, Deposit deposit, int depthMm, Set<Feature> features) {
    Tooth tooth = Tooth.ofIso(iso);
    AspectReading sites = AspectReading.even(depthMm);
    teeth.put(tooth, new ToothChart(tooth, status, deposit, 0, 0, features, sites, sites));
    return this;
  }

  SmallChart alert(Alert alert) {
    Set<Alert> alerts = EnumSet.of(alert);
    alerts.addAll(history.alerts());
    history = History.of(alerts);
    return this;
  }

  Chart build() {
    return new Chart(
        "T-1",
        null,
        Numbering.ISO3950,
        new Patient(
            ageYears, weightKg, longestVisitMinutes, history, startWith, false, List.of(), null),
        java.util.List.copyOf(teeth.values()));
  }
}
