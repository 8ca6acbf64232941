package quadrille.treatment.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import quadrille.facts.chart.Deposit;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Practice;

/**
 * One of a practice's times that records can tell about.
 *
 * @param index of the depth band or the deposit grade; 0 for the others
 * @param words in a report, such as {@code fine pass, sites of 5 mm and more}
 * @param seconds by the practice file: of a site, a tooth, an implant, one change, one injection,
 *     or set-up and close together
 * @param source how the file knows it
 */
public record PracticeTime(Kind kind, int index, String words, double seconds, String source) {

  /** Kinds of times. */
  public enum Kind {
    FINE(true, true),
    GROSS(true, true),
    FINISHING(true, true),
    IMPLANT_CARE(true, true),
    TIP_CHANGE(true, false),
    REPOSITION_AREA(true, false),
    REPOSITION_ASPECT(true, false),
    INJECTION_HANDLING(false, false),
    SET_UP_AND_CLOSE(false, false);

    private final boolean byHand;
    private final boolean working;

    Kind(boolean byHand, boolean working) {
      this.byHand = byHand;
      this.working = working;
    }

    /** Whether the clinician's speed changes it. */
    boolean byHand() {
      return byHand;
    }

    /** Whether it is part of the working seconds that the spread is about. */
    boolean working() {
      return working;
    }
  }

  /** All times of a practice, in the order of reports. */
  static List<PracticeTime> of(Practice practice) {
    Minutes minutes = practice.minutes();
    List<PracticeTime> times = new ArrayList<>();
    List<Minutes.FineBand> bands = minutes.fineBands();
    for (int band = 0; band < bands.size(); band++) {
      times.add(
          new PracticeTime(
              Kind.FINE,
              band,
              "fine pass, " + sites(bands, band),
              bands.get(band).seconds().value(),
              bands.get(band).seconds().source()));
    }
    for (Deposit deposit : Deposit.values()) {
      var figure =
          Objects.requireNonNull(minutes.grossSeconds().get(deposit), "every grade has seconds");
      times.add(
          new PracticeTime(
              Kind.GROSS,
              deposit.ordinal(),
              "gross pass, " + (deposit == Deposit.NONE ? "no" : deposit.word()) + " deposit",
              figure.value(),
              figure.source()));
    }
    times.add(flat(Kind.FINISHING, "finishing", minutes.finishingSeconds()));
    times.add(flat(Kind.IMPLANT_CARE, "implant care", minutes.implantCareSeconds()));
    times.add(flat(Kind.TIP_CHANGE, "tip change", minutes.tipChangeSeconds()));
    times.add(
        flat(Kind.REPOSITION_AREA, "moving to another area", minutes.repositionAreaSeconds()));
    times.add(
        flat(
            Kind.REPOSITION_ASPECT,
            "moving to the other aspect",
            minutes.repositionAspectSeconds()));
    times.add(
        flat(
            Kind.INJECTION_HANDLING,
            "handling of an injection",
            practice.numbing().handlingSeconds()));
    times.add(
        new PracticeTime(
            Kind.SET_UP_AND_CLOSE,
            0,
            "set-up and close",
            60 * (minutes.setUpMinutes().value() + minutes.closeMinutes().value()),
            both(minutes.setUpMinutes().source(), minutes.closeMinutes().source())));
    return List.copyOf(times);
  }

  private static String both(String setUp, String close) {
    return setUp.equals(close) ? setUp : "set-up: " + setUp + "; close: " + close;
  }

  private static PracticeTime flat(Kind kind, String words, Figure figure) {
    return new PracticeTime(kind, 0, words, figure.value(), figure.source());
  }

  private static String sites(List<Minutes.FineBand> bands, int band) {
    int from = bands.get(band).fromMm();
    if (bands.size() == 1) {
      return "any site";
    }
    if (band == bands.size() - 1) {
      return "sites of " + from + " mm and more";
    }
    int to = bands.get(band + 1).fromMm() - 1;
    return "sites of " + (from == to ? from + " mm" : from + " to " + to + " mm");
  }
}
