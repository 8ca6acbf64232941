package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import quadrille.facts.chart.Deposit;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Assumption.Use;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/** What a course's minutes rest on, the most minutes first, each with how the number is known. */
final class Assumptions {
  private final List<Assumption.Time> times = new ArrayList<>();

  private Assumptions() {}

  static List<Assumption> of(List<Visit> visits, Practice practice) {
    Assumptions all = new Assumptions();
    Minutes minutes = practice.minutes();
    all.add(Use.FINE_PASS, work(visits, Pass.FINE), deepest(minutes));
    all.add(Use.GROSS_PASS, work(visits, Pass.GROSS), heaviest(minutes));
    all.add(Use.FINISHING, work(visits, Pass.FINISHING), minutes.finishingSeconds());
    all.add(Use.IMPLANT_CARE, work(visits, Pass.IMPLANT_CARE), minutes.implantCareSeconds());
    all.add(Use.TIP_CHANGES, entries(visits, Entry.ChangeTip.class), minutes.tipChangeSeconds());
    all.add(
        Use.REPOSITIONING,
        entries(visits, Entry.Reposition.class),
        minutes.repositionAreaSeconds());
    all.add(Use.SET_UP, entries(visits, Entry.SetUp.class), minutes.setUpMinutes());
    practice
        .frame()
        .parts()
        .forEach((task, part) -> all.add(use(task), seconds(visits, task), part.minutes()));
    all.add(Use.CHARTING_ANEW, entries(visits, Entry.Probe.class), minutes.chartToothSeconds());
    all.add(Use.CLOSE, entries(visits, Entry.Close.class), minutes.closeMinutes());
    all.add(Use.INJECTING, entries(visits, Entry.Inject.class), practice.numbing().mlPerMinute());
    List<Assumption> assumptions = new ArrayList<>(all.times);
    assumptions.add(
        new Assumption.BookedInTime(
            practice.appointments().certainty().value(),
            minutes.spreadSigma().value(),
            minutes.spreadSigma().source()));
    return assumptions;
  }

  private static Figure heaviest(Minutes minutes) {
    return Objects.requireNonNull(minutes.grossSeconds().get(Deposit.HEAVY));
  }

  private static Figure deepest(Minutes minutes) {
    return minutes.fineBands().get(minutes.fineBands().size() - 1).seconds();
  }

  private void add(Use use, int seconds, Figure figure) {
    if (seconds > 0) {
      times.add(new Assumption.Time(use, seconds, figure.value(), figure.source()));
      times.sort(Comparator.comparingInt(Assumption.Time::seconds).reversed());
    }
  }

  private static int work(List<Visit> visits, Pass pass) {
    return visits.stream()
        .flatMap(visit -> visit.steps().stream())
        .filter(step -> step.pass() == pass)
        .mapToInt(Entry.Debride::seconds)
        .sum();
  }

  private static Use use(Frame.Task task) {
    return switch (task) {
      case HISTORY -> Use.HISTORY;
      case BLOOD_PRESSURE -> Use.BLOOD_PRESSURE;
      case CONSENT -> Use.CONSENT;
      case RINSE -> Use.RINSE;
      case CHARTING -> Use.CHARTING;
      case INSTRUCTION -> Use.INSTRUCTION;
      case LAST_LOOK -> Use.LAST_LOOK;
    };
  }

  private static int seconds(List<Visit> visits, Frame.Task task) {
    return visits.stream()
        .flatMap(visit -> visit.sequence().stream())
        .filter(entry -> entry instanceof Entry.OfFrame part && part.task() == task)
        .mapToInt(Entry::seconds)
        .sum();
  }

  private static int entries(List<Visit> visits, Class<? extends Entry> kind) {
    return visits.stream()
        .flatMap(visit -> visit.sequence().stream())
        .filter(kind::isInstance)
        .mapToInt(Entry::seconds)
        .sum();
  }
}
