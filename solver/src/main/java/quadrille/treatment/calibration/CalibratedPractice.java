package quadrille.treatment.calibration;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Deposit;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Practice;
import quadrille.treatment.calibration.PracticeTime.Kind;

/** A practice with each of its times multiplied. */
final class CalibratedPractice {

  /** Seconds and minutes are written to two places. */
  private static final double PLACES = 100;

  private static final int DEEP_MM = 5;
  private static final int DEEPEST_MM = 7;

  private final Practice old;
  private final List<PracticeTime> times;
  private final double[] multipliers;
  private final IntFunction<@Nullable String> source;

  private CalibratedPractice(
      Practice old, double[] multipliers, IntFunction<@Nullable String> source) {
    this.old = old;
    this.times = PracticeTime.of(old);
    this.multipliers = multipliers;
    this.source = source;
  }

  /**
   * The practice with one depth band more where its last begins at 5 or 6 mm: nobody has published
   * how much longer the deepest sites take, so records may tell. The seconds are the same in both.
   */
  static Practice parted(Practice practice) {
    List<Minutes.FineBand> bands = practice.minutes().fineBands();
    Minutes.FineBand last = bands.get(bands.size() - 1);
    if (last.fromMm() < DEEP_MM || last.fromMm() >= DEEPEST_MM) {
      return practice;
    }
    List<Minutes.FineBand> more = new ArrayList<>(bands);
    more.add(new Minutes.FineBand(DEEPEST_MM, last.seconds()));
    return practice.withMinutes(practice.minutes().withFineBands(more));
  }

  /**
   * The practice with other times.
   *
   * @param multipliers of its times, in the order of {@link PracticeTime#of}
   * @param source of each new number, by its place among the times; null leaves the number
   */
  static Practice of(
      Practice practice,
      double[] multipliers,
      Figure spread,
      IntFunction<@Nullable String> source) {
    return new CalibratedPractice(practice, multipliers, source).practice(spread);
  }

  private Practice practice(Figure spread) {
    Minutes minutes = old.minutes();
    Map<Deposit, Figure> gross = new EnumMap<>(minutes.grossSeconds());
    gross.replaceAll((grade, figure) -> now(Kind.GROSS, grade.ordinal(), figure));
    Numbing numbing = old.numbing();
    return old.withMinutes(
            new Minutes(
                bands(minutes.fineBands()),
                minutes.rootAreaMm2(),
                minutes.furcationFactor().stream().map(this::furcation).toList(),
                minutes.provisionalDepthMm(),
                Collections.unmodifiableMap(gross),
                minutes.crownFactor(),
                now(Kind.FINISHING, 0, minutes.finishingSeconds()),
                now(Kind.IMPLANT_CARE, 0, minutes.implantCareSeconds()),
                now(Kind.TIP_CHANGE, 0, minutes.tipChangeSeconds()),
                now(Kind.REPOSITION_AREA, 0, minutes.repositionAreaSeconds()),
                now(Kind.REPOSITION_ASPECT, 0, minutes.repositionAspectSeconds()),
                minutes.chartToothSeconds(),
                minutes.handFactor(),
                minutes.lookMinutes(),
                now(Kind.SET_UP_AND_CLOSE, 0, minutes.setUpMinutes()),
                now(Kind.SET_UP_AND_CLOSE, 0, minutes.closeMinutes()),
                spread))
        .withNumbing(
            numbing.withHandlingSeconds(
                now(Kind.INJECTION_HANDLING, 0, numbing.handlingSeconds())));
  }

  private List<Minutes.FineBand> bands(List<Minutes.FineBand> bands) {
    return IntStream.range(0, bands.size())
        .mapToObj(
            i ->
                new Minutes.FineBand(
                    bands.get(i).fromMm(), now(Kind.FINE, i, bands.get(i).seconds())))
        .toList();
  }

  /**
   * What a furcation adds is learned in seconds; the factor is that over what the deep sites under
   * it take now.
   */
  private Figure furcation(Figure factor) {
    for (int k = 0; k < times.size(); k++) {
      String from = times.get(k).kind() == Kind.FURCATION ? source.apply(k) : null;
      if (from != null && factor.value() > 1) {
        double more = (factor.value() - 1) * multipliers[k] / deep();
        return new Figure(Math.round(1000 * (1 + more)) / 1000.0, from, Figure.Basis.CALIBRATED);
      }
    }
    return factor;
  }

  /** The mean multiplier of the bands from 5 mm on; that of the deepest where none is. */
  private double deep() {
    double sum = 0;
    int bands = 0;
    double deepest = 1;
    for (int k = 0; k < times.size(); k++) {
      PracticeTime.@Nullable Depths depths = times.get(k).depths();
      if (depths != null) {
        deepest = multipliers[k];
        sum += depths.fromMm() >= DEEP_MM ? multipliers[k] : 0;
        bands += depths.fromMm() >= DEEP_MM ? 1 : 0;
      }
    }
    return bands == 0 ? deepest : sum / bands;
  }

  private Figure now(Kind kind, int index, Figure figure) {
    for (int k = 0; k < times.size(); k++) {
      if (times.get(k).kind() == kind && times.get(k).index() == index) {
        String from = source.apply(k);
        return from == null
            ? figure
            : new Figure(
                Math.round(PLACES * multipliers[k] * figure.value()) / PLACES,
                from,
                Figure.Basis.CALIBRATED);
      }
    }
    return figure;
  }
}
