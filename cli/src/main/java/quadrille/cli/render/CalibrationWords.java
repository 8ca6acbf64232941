package quadrille.cli.render;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import quadrille.facts.chart.Deposit;
import quadrille.treatment.calibration.PracticeTime;
import quadrille.treatment.calibration.Trouble;

/** A practice's times, and why a visit says nothing about them, in words. */
public final class CalibrationWords {

  private CalibrationWords() {}

  /** Such as {@code fine pass, sites of 5 mm and more}. */
  public static String time(PracticeTime time) {
    return switch (time.kind()) {
      case FINE -> "fine pass, " + sites(Objects.requireNonNull(time.depths()));
      case FURCATION -> "more for a furcation, worst grade";
      case GROSS -> {
        Deposit deposit = Deposit.values()[time.index()];
        yield "gross pass, " + (deposit == Deposit.NONE ? "no" : deposit.word()) + " deposit";
      }
      case FINISHING -> "finishing";
      case IMPLANT_CARE -> "implant care";
      case TIP_CHANGE -> "tip change";
      case REPOSITION_AREA -> "moving to another area";
      case REPOSITION_ASPECT -> "moving to the other aspect";
      case INJECTION_HANDLING -> "handling of an injection";
      case SET_UP_AND_CLOSE -> "set-up and close";
    };
  }

  private static String sites(PracticeTime.Depths depths) {
    int from = depths.fromMm();
    Integer to = depths.toMm();
    if (to == null) {
      return from == 0 ? "any site" : "sites of " + from + " mm and more";
    }
    return "sites of " + (from == to ? from + " mm" : from + " to " + to + " mm");
  }

  /** A clause. */
  static String why(List<Trouble> troubles) {
    return troubles.stream().map(CalibrationWords::why).collect(Collectors.joining("; "));
  }

  private static String why(Trouble trouble) {
    if (trouble instanceof Trouble.NoStepOf none) {
      return "no step done of " + none.area().name(none.numbering()) + ", " + none.pass().word();
    }
    return switch ((Trouble.Known) trouble) {
      case COUNTED_ONCE -> "recorded in two of the files, counted once";
      case INTERRUPTED -> "interrupted";
      case NO_MINUTES -> "no minutes recorded";
      case PARTS_TOO_LONG -> "its parts take as long as the whole visit, or longer";
    };
  }
}
