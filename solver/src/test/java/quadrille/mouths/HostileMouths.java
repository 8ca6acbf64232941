package quadrille.mouths;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AspectReading;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;

/** Charts at the edge of what the file format allows. All of them are valid charts. */
final class HostileMouths {

  private static final Patient ADULT = patient(50, 75.0, Set.of());
  private static final AspectReading UNPROBED =
      new AspectReading(
          new Site(null, 0, false), new Site(null, 0, false), new Site(null, 0, false));
  private static final List<Tooth> EVERY = Tooth.values();

  private HostileMouths() {}

  static List<Chart> all() {
    List<Chart> charts = new ArrayList<>();
    charts.add(chart("32 teeth at 12 mm, heavy", ADULT, EVERY, HostileMouths::dire));
    charts.add(
        chart(
            "32 teeth at 12 mm, no weight",
            patient(50, null, Set.of()),
            EVERY,
            HostileMouths::dire));
    charts.add(chart("32 teeth at 20 mm, every feature", ADULT, EVERY, HostileMouths::utmost));
    charts.add(chart("32 healthy teeth", ADULT, EVERY, t -> even(t, Deposit.NONE, 2)));
    charts.add(chart("32 teeth at 0 mm", ADULT, EVERY, t -> even(t, Deposit.NONE, 0)));
    charts.add(chart("one deep molar", ADULT, isos(36), HostileMouths::dire));
    charts.add(chart("one light incisor", ADULT, isos(11), t -> even(t, Deposit.LIGHT, 2)));
    charts.add(chart("one third molar each side", ADULT, isos(18, 38), HostileMouths::dire));
    charts.add(
        chart("upper front, both sides", ADULT, isos(13, 12, 11, 21, 22, 23), HostileMouths::dire));
    charts.add(chart("32 implants, inflamed", ADULT, EVERY, t -> implant(t, 8, true)));
    charts.add(
        chart(
            "four implants, nothing due", ADULT, isos(16, 26, 36, 46), t -> implant(t, 2, false)));
    charts.add(
        chart(
            "implants between deep teeth",
            ADULT,
            EVERY,
            t -> t.position() % 2 == 0 ? implant(t, 6, true) : dire(t)));
    charts.add(
        chart(
            "all sites unprobed",
            ADULT,
            EVERY,
            t -> of(t, ToothStatus.NATURAL, Deposit.HEAVY, Set.of(), UNPROBED)));
    charts.add(
        chart(
            "unprobed implants",
            ADULT,
            isos(14, 24),
            t -> of(t, ToothStatus.IMPLANT, Deposit.HEAVY, Set.of(), UNPROBED)));
    charts.add(
        chart(
            "all alerts",
            patient(50, 75.0, EnumSet.allOf(Alert.class)),
            EVERY,
            t -> even(t, Deposit.MODERATE, 6)));
    for (Quadrant quadrant : Quadrant.values()) {
      charts.add(
          chart(
              "only " + quadrant,
              ADULT,
              EVERY.stream().filter(t -> t.quadrant() == quadrant).toList(),
              HostileMouths::dire));
    }
    charts.add(
        chart(
            "lower jaw only",
            ADULT,
            EVERY.stream().filter(t -> t.quadrant().jaw() == Jaw.LOWER).toList(),
            HostileMouths::dire));
    charts.add(
        chart(
            "left side only",
            ADULT,
            EVERY.stream().filter(t -> t.quadrant().side() == Side.LEFT).toList(),
            HostileMouths::dire));
    charts.add(
        chart("a child of 6, 20 kg", patient(6, 20.0, Set.of()), EVERY, HostileMouths::dire));
    charts.add(
        chart("an infant's weight", patient(0, 2.0, Set.of()), isos(46), HostileMouths::dire));
    charts.add(
        chart("400 kg at 120 years", patient(120, 400.0, Set.of()), EVERY, HostileMouths::dire));
    charts.add(
        chart(
            "ten minutes at most",
            new Patient(50, 75.0, 10, Set.of(), Quadrant.LL, true),
            EVERY,
            HostileMouths::dire));
    charts.add(
        chart(
            "wishes numbness, all shallow",
            new Patient(50, 75.0, 480, Set.of(), Quadrant.UL, true),
            EVERY,
            t -> even(t, Deposit.LIGHT, 3)));
    charts.add(
        chart(
            "nothing known of the patient",
            new Patient(null, null, null, Set.of(), null, false),
            EVERY,
            t -> even(t, Deposit.MODERATE, 5)));
    return List.copyOf(charts);
  }

  static List<Chart> toothless() {
    return List.of(
        chart("no tooth listed", ADULT, List.of(), HostileMouths::dire),
        chart("32 missing", ADULT, EVERY, t -> without(t, ToothStatus.MISSING)),
        chart(
            "32 planned for extraction",
            ADULT,
            EVERY,
            t -> without(t, ToothStatus.PLANNED_EXTRACTION)));
  }

  private static Chart chart(
      String name, Patient patient, List<Tooth> teeth, Function<Tooth, ToothChart> charted) {
    return new Chart(
        "hostile: " + name, null, Numbering.ISO3950, patient, teeth.stream().map(charted).toList());
  }

  private static Patient patient(int age, @Nullable Double weightKg, Set<Alert> alerts) {
    return new Patient(age, weightKg, null, alerts, null, false);
  }

  private static List<Tooth> isos(int... codes) {
    return java.util.Arrays.stream(codes).mapToObj(Tooth::ofIso).toList();
  }

  private static ToothChart dire(Tooth tooth) {
    Site site = new Site(12, 2, true);
    return of(
        tooth, ToothStatus.NATURAL, Deposit.HEAVY, Set.of(), new AspectReading(site, site, site));
  }

  private static ToothChart utmost(Tooth tooth) {
    Site site = new Site(20, 20, true);
    return new ToothChart(
        tooth,
        ToothStatus.NATURAL,
        Deposit.HEAVY,
        tooth.furcated() ? 3 : 0,
        3,
        EnumSet.allOf(Feature.class),
        new AspectReading(site, new Site(20, -10, true), site),
        new AspectReading(site, site, site));
  }

  private static ToothChart even(Tooth tooth, Deposit deposit, int depthMm) {
    return of(tooth, ToothStatus.NATURAL, deposit, Set.of(), AspectReading.even(depthMm));
  }

  private static ToothChart implant(Tooth tooth, int depthMm, boolean inflamed) {
    Site site = new Site(depthMm, 0, inflamed);
    return of(
        tooth,
        ToothStatus.IMPLANT,
        inflamed ? Deposit.MODERATE : Deposit.NONE,
        Set.of(),
        new AspectReading(site, site, site));
  }

  private static ToothChart without(Tooth tooth, ToothStatus status) {
    return new ToothChart(tooth, status, Deposit.NONE, 0, 0, Set.of(), null, null);
  }

  private static ToothChart of(
      Tooth tooth, ToothStatus status, Deposit deposit, Set<Feature> features, AspectReading both) {
    return new ToothChart(tooth, status, deposit, 0, 0, features, both, both);
  }
}
