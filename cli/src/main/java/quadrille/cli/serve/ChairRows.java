package quadrille.cli.serve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.FrameWords;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.Visit;
import quadrille.treatment.restaging.Numbed;

/** What is ticked of a visit, row by row. */
final class ChairRows {
  private final Visit visit;
  private final List<Integer> places;
  private final Practice practice;
  private final Numbering numbering;
  private final Map<InjectionRef, GivenInjection> injections = new LinkedHashMap<>();

  /**
   * @param visit in the order in which it goes on
   * @param places which entry of the plan each of its entries is
   */
  ChairRows(Visit visit, List<Integer> places, Practice practice, Numbering numbering) {
    this.visit = visit;
    this.places = places;
    this.practice = practice;
    this.numbering = numbering;
    visit.injections().forEach(one -> injections.put(one.ref(), one));
  }

  List<ChairPage.Row> list() {
    List<ChairPage.Row> rows = new ArrayList<>();
    List<String> before = new ArrayList<>();
    for (int i = 0; i < visit.sequence().size(); i++) {
      Entry entry = visit.sequence().get(i);
      String where = PlanFileWords.of(practice).entry(entry, numbering);
      switch (entry.kind()) {
        case CHANGE_TIP -> before.add("Change to " + ((Entry.ChangeTip) entry).to());
        case WAIT -> before.add("Wait for " + where);
        case REPOSITION -> {}
        default -> {
          rows.add(row(places.get(i), entry, where, String.join("; ", before)));
          before.clear();
        }
      }
    }
    return rows;
  }

  private ChairPage.Row row(int of, Entry entry, String where, String before) {
    int start = entry.startSecond() / 60;
    if (entry instanceof Entry.Debride step) {
      String teeth = Words.teeth(step.teeth(), numbering);
      return new ChairPage.Row(
          of,
          start,
          Words.capital(step.pass().word()),
          Words.place(step.area(), step.aspect(), numbering) + ", " + teeth,
          teeth,
          before,
          ChairPage.Numbs.NOTHING,
          Numbed.by(visit, step, practice).stream().map(places::get).toList(),
          true);
    }
    @Nullable GivenInjection given =
        entry instanceof Entry.Inject inject ? injections.get(inject.injection()) : null;
    if (given != null) {
      Agent agent = Objects.requireNonNull(practice.agents().get(given.agent()));
      Injection injection = Objects.requireNonNull(practice.injections().get(given.injection()));
      String ml = Words.number(given.ml(), 2) + "\u00a0mL";
      return new ChairPage.Row(
          of,
          start,
          "Inject",
          where + ", " + ml + " " + agent.words(),
          ml,
          before,
          new ChairPage.Numbs(
              given.agent(),
              given.ml() * agent.mgPerMl().value(),
              injection.lowerBlock() && agent.lowerBlockPulpalMinutes() != null
                  ? (int) agent.lowerBlockPulpalMinutes().value()
                  : minutes(agent.pulpalMinutes(), injection),
              minutes(agent.onsetMinutes(), injection),
              regions(of)),
          List.of(),
          false);
    }
    String doing =
        switch (entry.kind()) {
          case SET_UP -> "Set up";
          case LOOK -> "Look at the bleeding before going on";
          default ->
              entry instanceof Entry.OfFrame part
                  ? FrameWords.of(part.task())
                  : Words.capital(entry.kind().word().replace('-', ' '));
        };
    boolean plain = entry instanceof Entry.OfFrame || entry instanceof Entry.SetUp;
    return new ChairPage.Row(
        of,
        start,
        doing,
        plain ? "" : where,
        "",
        before,
        ChairPage.Numbs.NOTHING,
        List.of(),
        false);
  }

  /** The areas of the visit in which an injection numbs some of what is worked on under it. */
  private List<String> regions(int of) {
    return visit.steps().stream()
        .filter(step -> Numbed.by(visit, step, practice).contains(places.indexOf(of)))
        .map(step -> step.area().name(numbering))
        .distinct()
        .toList();
  }

  private static int minutes(Map<Technique, Figure> by, Injection injection) {
    @Nullable Figure figure = by.get(injection.technique());
    return figure == null ? 0 : (int) figure.value();
  }
}
