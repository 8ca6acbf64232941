package quadrille.plan.course;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.PlanChange.Why;
import quadrille.plan.work.WorkNote;

/** A caution, an assumption and a change of every kind. */
public final class SampleNotes {
  private static final InjectionRef BLOCK =
      new InjectionRef("inferior alveolar", Quadrant.LR, null);
  private static final InjectionRef LOCAL =
      new InjectionRef("infiltration", Quadrant.UR, Tooth.ofIso(14));
  private static final List<Tooth> TEETH = List.of(Tooth.ofIso(16), Tooth.ofIso(31));
  private static final LocalDate DAY = LocalDate.of(2026, 3, 2);

  private SampleNotes() {}

  public static List<Caution> cautions() {
    List<Caution> all =
        new ArrayList<>(
            List.of(
                new Caution.AsWritten("Diabetes: book a short morning visit after a meal."),
                new Caution.UnknownAlert(Alert.PACEMAKER),
                new Caution.AntibioticCovers(Alert.ENDOCARDITIS_RISK, 3),
                new Caution.OfWork(
                    new WorkNote.Unprobed(TEETH, Figure.written(5, "assumption"), true)),
                new Caution.OfWork(
                    new WorkNote.ChartFirst(
                        TEETH, 61, 162, Figure.written(0.25, "assumption"), 4200)),
                new Caution.BlockMayFail(BLOCK, null),
                new Caution.BlockMayFail(BLOCK, new Caution.Rescue("a", 1.5, false)),
                new Caution.StrongSolutionInBlock(BLOCK, "articaine-4-100"),
                new Caution.BlockBeforeLook(BLOCK),
                new Caution.DidNotTake(LOCAL, 2, DAY),
                new Caution.GivenThatDay(
                    List.of(
                        new GivenInjection("local", Quadrant.UR, Tooth.ofIso(16), "a", 0.6),
                        new GivenInjection("block", Quadrant.LR, null, "b", 1.7)),
                    0.5),
                new Caution.LeftOpen(List.of(AreaRef.of("LR posterior 47-46")), List.of()),
                new Caution.LeftOpen(
                    List.of(AreaRef.of("UR anterior")),
                    List.of(
                        new AreaPass(AreaRef.of("UR anterior"), Pass.FINE),
                        new AreaPass(AreaRef.of("UR anterior"), Pass.FINISHING))),
                new Caution.SleeveBroke(Tooth.ofIso(36), 1, DAY)));
    Stream.of(WorkNote.Kind.values())
        .map(kind -> new Caution.OfWork(new WorkNote.Of(kind, TEETH)))
        .forEach(all::add);
    all.addAll(List.of(Caution.Known.values()));
    return all;
  }

  public static List<Assumption> assumptions() {
    List<Assumption> all =
        new ArrayList<>(
            List.of(
                new Assumption.AsWritten("say \"assumption\" or \\ a source"),
                new Assumption.BookedInTime(0.9, 0.25, "assumption")));
    for (Assumption.Use use : Assumption.Use.values()) {
      all.add(new Assumption.Time(use, 100 + use.ordinal(), 32.33, "common practice, no source"));
    }
    return all;
  }

  public static List<PlanChange> changes() {
    AreaPass pass = new AreaPass(AreaRef.of("LR posterior 47-46"), Pass.FINE);
    GivenInjection given = new GivenInjection("infiltration", Quadrant.UR, Tooth.ofIso(14), "a", 1);
    List<What> whats =
        List.of(
            new What.AsWritten("Visit 3 is gone."),
            new What.OtherPractice("ours", "theirs"),
            new What.FallsAway(true),
            new What.IsNew(40, List.of(pass)),
            new What.Takes(pass),
            new What.NoLongerHas(pass),
            new What.Seconds(pass, 612, 500),
            new What.Needs(50, 40, null),
            new What.Needs(50, 40, 60),
            new What.Numbs(NumbSide.LEFT, NumbSide.NONE),
            new What.Gives(List.of(given), List.of()),
            new What.OtherOrder());
    List<Why> whys =
        new ArrayList<>(
            List.of(
                new Why.AsWritten("Nothing is left for it."),
                new Why.LeftUndone(1, true),
                new Why.LeftUndone(1, false)));
    whys.addAll(List.of(Why.Known.values()));
    List<PlanChange> changes = new ArrayList<>();
    for (int i = 0; i < Math.max(whats.size(), whys.size()); i++) {
      changes.add(
          new PlanChange(
              i % 2 == 0 ? null : i, whats.get(i % whats.size()), whys.get(i % whys.size())));
    }
    return changes;
  }
}
