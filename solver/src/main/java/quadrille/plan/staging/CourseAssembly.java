package quadrille.plan.staging;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.Visit;
import quadrille.plan.visit.NumbSides;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepFact;
import quadrille.plan.visit.VisitTimeline;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;

/** Turns laid-out visits into the visits of a finished course. */
final class CourseAssembly {
  private final StagingCase staging;
  private final Practice practice;

  CourseAssembly(StagingCase staging) {
    this.staging = staging;
    this.practice = staging.practice();
  }

  /** One visit, without sites to watch and cautions, which its caller knows. */
  Visit visit(int number, VisitTimeline layout) {
    List<Step> steps = new ArrayList<>();
    for (int index : layout.order()) {
      steps.add(staging.steps().get(index).step());
    }
    int working = layout.set().workSeconds();
    int fixed = layout.chairSeconds() - working;
    int booked = layout.bookedMinutes(staging);
    return new Visit(
        number,
        NumbSides.of(layout.dosing().cover(), practice.appointments().midlineInfiltration()),
        booked,
        1 - staging.chanceWithin(60 * booked - fixed, working, layout.dosing().cover()),
        distinct(steps.stream().map(step -> step.area().ref()).toList()),
        injections(layout),
        doses(layout),
        epinephrineMg(layout),
        layout.dosing().cartridges(),
        layout.set().gelAspects() * practice.gel().cartridgesAspect().value(),
        steps.stream().anyMatch(step -> step.insert().sleeved()) ? 1 : 0,
        sequence(number - 1, layout),
        distinct(steps.stream().map(step -> step.insert().name()).toList()),
        List.of(),
        List.of());
  }

  private static <T> List<T> distinct(List<T> all) {
    return List.copyOf(new LinkedHashSet<>(all));
  }

  private static double epinephrineMg(VisitTimeline layout) {
    return layout.dosing().cover().amounts().stream()
        .mapToDouble(Doses.Amount::epinephrineMg)
        .sum();
  }

  /** Agents in the order first given, then gel. */
  private List<Dose> doses(VisitTimeline layout) {
    List<String> given = injections(layout).stream().map(GivenInjection::agent).toList();
    return layout.dosing().shares().stream()
        .map(share -> new Dose(share.name(), share.given(), share.most(), share.share()))
        .sorted(
            Comparator.comparingInt(
                dose -> given.contains(dose.agent()) ? given.indexOf(dose.agent()) : given.size()))
        .toList();
  }

  private List<GivenInjection> injections(VisitTimeline layout) {
    List<GivenInjection> given = new ArrayList<>();
    for (int g : givingOrder(layout)) {
      for (PlacedInjection placed : layout.dosing().cover().groups().get(g).injections()) {
        given.add(given(placed));
      }
    }
    return given;
  }

  private static GivenInjection given(PlacedInjection placed) {
    Agent agent = Objects.requireNonNull(placed.agent());
    return new GivenInjection(
        placed.injection().name(), placed.quadrant(), placed.tooth(), agent.name(), placed.ml());
  }

  /** The groups in the order in which they are given. */
  private static List<Integer> givingOrder(VisitTimeline layout) {
    List<Integer> groups = new ArrayList<>();
    for (int g = 0; g < layout.giveAt().length; g++) {
      groups.add(g);
    }
    groups.sort(
        (one, other) ->
            layout.giveAt()[one] != layout.giveAt()[other]
                ? Integer.compare(layout.giveAt()[one], layout.giveAt()[other])
                : Integer.compare(layout.giveRank()[one], layout.giveRank()[other]));
    return groups;
  }

  private List<Entry> sequence(int place, VisitTimeline layout) {
    Tape tape = new Tape();
    tape.add(seconds(practice.minutes().setUpMinutes()), Entry.SetUp::new);
    frame(staging.before(place), tape);
    int[] start = new int[layout.giveAt().length];
    StepFact before = null;
    List<Integer> groups = givingOrder(layout);
    for (int i = 0; i < layout.order().length; i++) {
      boolean toLook = layout.lookAt() == i;
      for (int g : groups) {
        if (layout.giveAt()[g] == i) {
          if (toLook && layout.giveRank()[g] > layout.lookRank()) {
            tape.add(staging.lookSeconds(), Entry.Look::new);
            toLook = false;
          }
          start[g] = tape.now;
          give(layout, g, tape);
        }
      }
      if (toLook) {
        tape.add(staging.lookSeconds(), Entry.Look::new);
      }
      StepFact fact = staging.steps().get(layout.order()[i]);
      Step step = fact.step();
      moveTo(before, fact, tape);
      if (step.gel()) {
        gel(step, tape);
      }
      waitFor(layout, fact.index(), start, tape);
      tape.add(
          step.chartSecondsBefore(),
          (from, length) ->
              new Entry.Probe(from, length, List.of(step.area().ref()), step.aspect()));
      tape.add(
          step.seconds(),
          (from, length) ->
              new Entry.Debride(
                  from,
                  length,
                  step.area().ref(),
                  step.aspect(),
                  step.pass(),
                  step.insert().name(),
                  step.power(),
                  step.needsInjection() || step.gel(),
                  step.teeth()));
      before = fact;
    }
    tape.add(
        layout.set().chartSeconds(),
        (from, length) -> new Entry.Probe(from, length, charted(layout), StepAspect.BOTH));
    frame(staging.after(place), tape);
    tape.add(seconds(practice.minutes().closeMinutes()), Entry.Close::new);
    if (tape.now != layout.chairSeconds()) {
      throw new IllegalStateException(
          "The clock of a visit shows " + tape.now + " s, not " + layout.chairSeconds() + " s.");
    }
    return List.copyOf(tape.entries);
  }

  /** The areas that are charted at the end of a visit. */
  private List<AreaRef> charted(VisitTimeline layout) {
    return Arrays.stream(layout.order())
        .mapToObj(index -> staging.steps().get(index).step())
        .filter(step -> step.chartSecondsAfter() > 0)
        .map(step -> step.area().ref())
        .sorted()
        .toList();
  }

  private static int seconds(Figure minutes) {
    return (int) Math.round(60 * minutes.value());
  }

  private void frame(List<Frame.Task> tasks, Tape tape) {
    for (Frame.Task task : tasks) {
      tape.add(
          practice.frame().seconds(task), (from, length) -> new Entry.OfFrame(from, length, task));
    }
  }

  private void give(VisitTimeline layout, int group, Tape tape) {
    for (PlacedInjection placed : layout.dosing().cover().groups().get(group).injections()) {
      InjectionRef ref = given(placed).ref();
      tape.add(
          placed.seconds(practice.numbing()),
          (from, length) -> new Entry.Inject(from, length, ref));
    }
  }

  private void moveTo(@Nullable StepFact before, StepFact fact, Tape tape) {
    if (before == null) {
      return;
    }
    Step step = fact.step();
    int tip = staging.tipSeconds(before, fact);
    tape.add(tip, (from, length) -> new Entry.ChangeTip(from, length, step.insert().name()));
    tape.add(
        staging.change(before.index(), fact.index()) - tip,
        (from, length) -> new Entry.Reposition(from, length, step.area().ref(), step.aspect()));
  }

  private void gel(Step step, Tape tape) {
    Gel gel = practice.gel();
    tape.add(
        gel.applySeconds().asInt(),
        (from, length) ->
            new Entry.ApplyGel(from, length, gel.name(), step.area().ref(), step.aspect()));
    tape.add(
        gel.onsetSeconds().asInt(),
        (from, length) -> new Entry.Wait(from, length, new Awaited.Gel(gel.name())));
  }

  private void waitFor(VisitTimeline layout, int index, int[] start, Tape tape) {
    int[] needs = layout.dosing().needs()[index];
    if (needs == null) {
      return;
    }
    int ready = tape.now;
    Set<Quadrant> quadrants = new LinkedHashSet<>();
    for (int k = 0; k < needs.length; k += 3) {
      int numb = start[needs[k]] + needs[k + 1];
      if (numb > tape.now) {
        quadrants.add(layout.dosing().cover().groups().get(needs[k]).quadrant());
      }
      ready = Math.max(ready, numb);
    }
    tape.add(
        ready - tape.now,
        (from, length) ->
            new Entry.Wait(from, length, new Awaited.Numbness(List.copyOf(quadrants))));
  }

  /** The clock as it is written. */
  private static final class Tape {
    private final List<Entry> entries = new ArrayList<>();
    private int now;

    void add(int seconds, EntryOf entry) {
      if (seconds > 0) {
        entries.add(entry.of(now, seconds));
        now += seconds;
      }
    }
  }

  private interface EntryOf {
    Entry of(int from, int seconds);
  }
}
