package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import quadrille.facts.chart.Deposit;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/** What a course's minutes rest on, the most minutes first, each with how the number is known. */
final class Assumptions {
  private final List<Share> shares = new ArrayList<>();

  private record Share(int seconds, String words) {}

  private Assumptions() {}

  static List<String> of(List<Visit> visits, Practice practice) {
    Assumptions all = new Assumptions();
    Minutes minutes = practice.minutes();
    all.add(
        work(visits, Pass.FINE),
        "fine pass, from " + seconds(deepest(minutes)) + " a site in the deepest band",
        deepest(minutes));
    all.add(
        work(visits, Pass.GROSS),
        "gross pass, " + seconds(heaviest(minutes)) + " a tooth with heavy deposit",
        heaviest(minutes));
    all.add(
        work(visits, Pass.FINISHING),
        "finishing, " + seconds(minutes.finishingSeconds()) + " a tooth",
        minutes.finishingSeconds());
    all.add(
        work(visits, Pass.IMPLANT_CARE),
        "implant care, " + seconds(minutes.implantCareSeconds()) + " an implant",
        minutes.implantCareSeconds());
    all.add(
        entries(visits, Entry.ChangeTip.class),
        "tip changes, " + seconds(minutes.tipChangeSeconds()) + " each",
        minutes.tipChangeSeconds());
    all.add(
        entries(visits, Entry.Reposition.class),
        "repositioning, " + seconds(minutes.repositionAreaSeconds()) + " to another area",
        minutes.repositionAreaSeconds());
    all.add(
        entries(visits, Entry.SetUp.class),
        "set-up, " + plain(minutes.setUpMinutes().value()) + " min a visit",
        minutes.setUpMinutes());
    all.add(
        entries(visits, Entry.Close.class),
        "close, " + plain(minutes.closeMinutes().value()) + " min a visit",
        minutes.closeMinutes());
    all.add(
        entries(visits, Entry.Inject.class),
        "injecting, " + plain(practice.numbing().mlPerMinute().value()) + " mL a minute",
        practice.numbing().mlPerMinute());
    return all.lines(practice);
  }

  private static Figure heaviest(Minutes minutes) {
    return Objects.requireNonNull(minutes.grossSeconds().get(Deposit.HEAVY));
  }

  private static Figure deepest(Minutes minutes) {
    return minutes.fineBands().get(minutes.fineBands().size() - 1).seconds();
  }

  private void add(int seconds, String words, Figure figure) {
    if (seconds > 0) {
      shares.add(new Share(seconds, words + " (" + figure.source() + ")"));
    }
  }

  private List<String> lines(Practice practice) {
    List<String> lines = new ArrayList<>();
    shares.stream()
        .sorted(Comparator.comparingInt(Share::seconds).reversed())
        .forEach(
            share ->
                lines.add(
                    String.format(
                        Locale.ROOT, "%.0f min: %s", share.seconds() / 60.0, share.words())));
    lines.add(
        "booked so that "
            + Math.round(100 * practice.appointments().certainty().value())
            + " of 100 visits end in time, spread "
            + plain(practice.minutes().spreadSigma().value())
            + " ("
            + practice.minutes().spreadSigma().source()
            + ")");
    return lines;
  }

  private static int work(List<Visit> visits, Pass pass) {
    return visits.stream()
        .flatMap(visit -> visit.steps().stream())
        .filter(step -> step.pass() == pass)
        .mapToInt(Entry.Debride::seconds)
        .sum();
  }

  private static int entries(List<Visit> visits, Class<? extends Entry> kind) {
    return visits.stream()
        .flatMap(visit -> visit.sequence().stream())
        .filter(kind::isInstance)
        .mapToInt(Entry::seconds)
        .sum();
  }

  private static String seconds(Figure figure) {
    return plain(figure.value()) + " s";
  }

  /** A number with at most three decimals and no trailing zeros. */
  private static String plain(double value) {
    return new java.math.BigDecimal(value)
        .setScale(value < 1 ? 3 : 1, java.math.RoundingMode.HALF_UP)
        .stripTrailingZeros()
        .toPlainString();
  }
}
