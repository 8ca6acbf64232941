package quadrille.plan.work;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/** Teeth and charts for the tests of this package. */
final class Teeth {

  static final Patient ADULT = new Patient(50, 70.0, null, Set.of(), null, false);

  private Teeth() {}

  /** A natural tooth with one depth at all six sites. */
  static ToothChart even(int iso, Deposit deposit, @Nullable Integer depthMm, Feature... features) {
    return tooth(iso, deposit, depths(depthMm), depths(depthMm), features);
  }

  static ToothChart tooth(
      int iso, Deposit deposit, AspectReading facial, AspectReading lingual, Feature... features) {
    return new ToothChart(
        Tooth.ofIso(iso),
        ToothStatus.NATURAL,
        deposit,
        0,
        0,
        Set.copyOf(Arrays.asList(features)),
        facial,
        lingual);
  }

  static ToothChart implant(int iso, Deposit deposit, int facialMm, int lingualMm) {
    return new ToothChart(
        Tooth.ofIso(iso),
        ToothStatus.IMPLANT,
        deposit,
        0,
        0,
        Set.of(),
        depths(facialMm),
        depths(lingualMm));
  }

  static ToothChart gone(int iso, ToothStatus status) {
    return new ToothChart(Tooth.ofIso(iso), status, Deposit.NONE, 0, 0, Set.of(), null, null);
  }

  static ToothChart withFurcation(ToothChart tooth, int furcation) {
    return new ToothChart(
        tooth.tooth(),
        tooth.status(),
        tooth.deposit(),
        furcation,
        tooth.mobility(),
        tooth.features(),
        tooth.facial(),
        tooth.lingual());
  }

  static AspectReading depths(@Nullable Integer depthMm) {
    Site site = new Site(depthMm, 0, false);
    return new AspectReading(site, site, site);
  }

  static Chart chart(ToothChart... teeth) {
    return chart(ADULT, List.of(teeth));
  }

  static Chart chart(Patient patient, List<ToothChart> teeth) {
    return new Chart("T-1", null, Numbering.ISO3950, patient, teeth);
  }

  static Patient patient(
      @Nullable Integer age, @Nullable Double weightKg, boolean wishes, Alert... alerts) {
    return new Patient(age, weightKg, null, Set.copyOf(Arrays.asList(alerts)), null, wishes);
  }
}
