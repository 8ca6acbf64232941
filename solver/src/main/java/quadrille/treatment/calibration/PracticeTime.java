package quadrille.treatment.calibration;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Deposit;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Practice;

/**
 * One of a practice's times that records can tell about.
 *
 * @param index of the depth band or the deposit grade; 0 for the others
 * @param depths of a site, of a fine pass; null for the others
 * @param seconds by the practice file: of a site, a tooth, an implant, one change, one injection,
 *     or set-up and close together; of a furcation, what the worst grade adds to a tooth of mean
 *     root area whose sites are all of the deepest band; and how the file knows it
 */
public record PracticeTime(Kind kind, int index, @Nullable Depths depths, Figure seconds) {

  /** Of a tooth. */
  private static final int SITES = 6;

  /**
   * A band of depths.
   *
   * @param toMm the last depth, inclusive; null where it has no end
   */
  public record Depths(int fromMm, @Nullable Integer toMm) {}

  /** Kinds of times. */
  public enum Kind {
    FINE(true, true),
    /** What a furcation adds to the fine pass, all grades by the same multiplier. */
    FURCATION(true, true),
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
      Integer to = band + 1 < bands.size() ? bands.get(band + 1).fromMm() - 1 : null;
      times.add(
          new PracticeTime(
              Kind.FINE,
              band,
              new Depths(bands.get(band).fromMm(), to),
              bands.get(band).seconds()));
    }
    times.add(flat(Kind.FURCATION, furcation(minutes)));
    for (Deposit deposit : Deposit.values()) {
      Figure figure =
          Objects.requireNonNull(minutes.grossSeconds().get(deposit), "every grade has seconds");
      times.add(new PracticeTime(Kind.GROSS, deposit.ordinal(), null, figure));
    }
    times.add(flat(Kind.FINISHING, minutes.finishingSeconds()));
    times.add(flat(Kind.IMPLANT_CARE, minutes.implantCareSeconds()));
    times.add(flat(Kind.TIP_CHANGE, minutes.tipChangeSeconds()));
    times.add(flat(Kind.REPOSITION_AREA, minutes.repositionAreaSeconds()));
    times.add(flat(Kind.REPOSITION_ASPECT, minutes.repositionAspectSeconds()));
    times.add(flat(Kind.INJECTION_HANDLING, practice.numbing().handlingSeconds()));
    times.add(flat(Kind.SET_UP_AND_CLOSE, both(minutes.setUpMinutes(), minutes.closeMinutes())));
    return List.copyOf(times);
  }

  private static Figure furcation(Minutes minutes) {
    Figure worst = minutes.furcationFactor().get(minutes.furcationFactor().size() - 1);
    double deepest = minutes.fineBands().get(minutes.fineBands().size() - 1).seconds().value();
    return new Figure(
        SITES * deepest * (worst.value() - 1),
        worst.source(),
        worst.calibrated() ? Figure.Basis.CALIBRATED : Figure.Basis.STATED);
  }

  private static Figure both(Figure setUp, Figure close) {
    return new Figure(
        60 * (setUp.value() + close.value()),
        setUp.source().equals(close.source())
            ? setUp.source()
            : "set-up: " + setUp.source() + "; close: " + close.source(),
        setUp.calibrated() || close.calibrated() ? Figure.Basis.CALIBRATED : Figure.Basis.STATED);
  }

  private static PracticeTime flat(Kind kind, Figure seconds) {
    return new PracticeTime(kind, 0, null, seconds);
  }
}
