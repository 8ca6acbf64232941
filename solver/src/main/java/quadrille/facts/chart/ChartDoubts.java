package quadrille.facts.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What in a chart is worth a second look: it may be as written, and nothing is refused for it. */
public final class ChartDoubts {

  /** From here on bounds of adults hold, years. */
  private static final int ADULT_YEARS = 16;

  /** Lightest and heaviest adult who is not asked about, kg. Assumptions. */
  private static final int ADULT_LEAST_KG = 30;

  private static final int ADULT_MOST_KG = 250;

  /** When permanent teeth come through, 1 to 8, the earlier jaw, years; from memory. */
  private static final int[] THROUGH_YEARS = {6, 7, 9, 9, 10, 6, 11, 17};

  /** So much earlier is not asked about, years. An assumption. */
  private static final int EARLY_YEARS = 2;

  private ChartDoubts() {}

  /**
   * Each doubt, words without a full stop.
   *
   * @param today the day on which it is read
   */
  public static List<String> of(Chart chart, LocalDate today) {
    List<String> doubts = new ArrayList<>();
    @Nullable LocalDate charted = chart.charted();
    if (charted != null && charted.isAfter(today)) {
      doubts.add("it was charted on " + charted + ", a day that has not come yet");
    }
    @Nullable Integer age = chart.patient().ageYears();
    @Nullable Double weight = chart.patient().weightKg();
    if (age != null && weight != null && (weight < least(age) || weight > most(age))) {
      doubts.add(
          "an age of "
              + age
              + " years and a weight of "
              + weight
              + " kg hardly go together; doses follow the weight");
    }
    if (age != null) {
      addTooYoung(chart, age, doubts);
    }
    return doubts;
  }

  private static void addTooYoung(Chart chart, int age, List<String> doubts) {
    List<String> early =
        chart.worked().stream()
            .map(ToothChart::tooth)
            .filter(tooth -> age < THROUGH_YEARS[tooth.position() - 1] - EARLY_YEARS)
            .map(tooth -> chart.numbering().name(tooth))
            .toList();
    if (!early.isEmpty()) {
      doubts.add(
          "at an age of "
              + age
              + " years these are hardly through as permanent teeth: "
              + String.join(", ", early));
    }
  }

  /** A child of this age weighs about so much, kg: 2 (age + 4), a rule of thumb, from memory. */
  private static double child(int age) {
    return 2.0 * (age + 4);
  }

  /** Half of that is an assumption. */
  private static double least(int age) {
    return age < ADULT_YEARS ? child(age) / 2 : ADULT_LEAST_KG;
  }

  /** Three times that is an assumption, for older children weigh more than the rule says. */
  private static double most(int age) {
    return age < ADULT_YEARS ? child(age) * 3 : ADULT_MOST_KG;
  }
}
