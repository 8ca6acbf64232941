package quadrille.plan.course;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Withers;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Tooth;

/**
 * One visit of a course.
 *
 * @param number 1, 2, 3 …
 * @param bookedMinutes a whole number of the practice's units
 * @param overrunRisk chance of running over the booked minutes, 0 to 1
 * @param areas the areas worked on, in the order first met
 * @param injections in the order given
 * @param doses agents first, then gel
 * @param cartridges opened, of injected agents
 * @param gelCartridges of pocket gel, used
 * @param sleeves implant sleeves, new ones
 * @param tray inserts in the order first used
 * @param watch sites to watch: deep sites, furcations, implants, calculus bridges
 * @param stopQuestions what a person answers before anything is touched, in the order in which it
 *     is asked
 */
@Withers
public record Visit(
    int number,
    NumbSide numbSide,
    int bookedMinutes,
    double overrunRisk,
    List<AreaRef> areas,
    List<GivenInjection> injections,
    List<Dose> doses,
    double epinephrineMg,
    int cartridges,
    double gelCartridges,
    int sleeves,
    List<Entry> sequence,
    List<String> tray,
    List<WatchSite> watch,
    List<Caution> cautions,
    List<StopQuestion> stopQuestions)
    implements VisitBuilder.With {

  public Visit {
    watch = List.copyOf(watch);
    cautions = List.copyOf(cautions);
    stopQuestions = List.copyOf(stopQuestions);
  }

  /** A visit before which nothing has to be asked. */
  public Visit(
      int number,
      NumbSide numbSide,
      int bookedMinutes,
      double overrunRisk,
      List<AreaRef> areas,
      List<GivenInjection> injections,
      List<Dose> doses,
      double epinephrineMg,
      int cartridges,
      double gelCartridges,
      int sleeves,
      List<Entry> sequence,
      List<String> tray,
      List<WatchSite> watch,
      List<Caution> cautions) {
    this(
        number,
        numbSide,
        bookedMinutes,
        overrunRisk,
        areas,
        injections,
        doses,
        epinephrineMg,
        cartridges,
        gelCartridges,
        sleeves,
        sequence,
        tray,
        watch,
        cautions,
        List.of());
  }

  /** Expected chair time in seconds: the end of the last entry. */
  public int expectedSeconds() {
    return sequence.isEmpty() ? 0 : sequence.get(sequence.size() - 1).endSecond();
  }

  /** Tip changes between steps. */
  public int tipChanges() {
    return (int) sequence.stream().filter(Entry.ChangeTip.class::isInstance).count();
  }

  /** The steps of work, in order. */
  public List<Entry.Debride> steps() {
    return sequence.stream()
        .filter(Entry.Debride.class::isInstance)
        .map(Entry.Debride.class::cast)
        .toList();
  }

  /** The largest sum of dose shares, 0 to 1. */
  public double doseShare() {
    return doses.stream().mapToDouble(Dose::share).sum();
  }

  /**
   * Front teeth that are infiltrated across the midline: on the side that is not the numb one, or
   * all that are where none is. Sorted; none where both sides are numb.
   */
  public List<Tooth> numbFront() {
    return numbSide == NumbSide.BOTH
        ? List.of()
        : injections.stream()
            .filter(given -> NumbSide.of(given.quadrant().side()) != numbSide)
            .map(GivenInjection::tooth)
            .flatMap(Stream::ofNullable)
            .distinct()
            .sorted()
            .toList();
  }

  /**
   * Whether the day's doses leave room to repeat every injection that may fail; null where none
   * may, or nobody said.
   */
  public @Nullable Boolean rescue() {
    Boolean room = null;
    for (Caution caution : cautions) {
      Caution.Rescue rescue = caution instanceof Caution.BlockMayFail block ? block.rescue() : null;
      if (rescue != null) {
        room = rescue.room() && !Boolean.FALSE.equals(room);
      }
    }
    return room;
  }

  /**
   * The blocks that are tested just before a step, since they may fail: it is the first numb one in
   * their quadrant after they were given.
   */
  public List<InjectionRef> testedBefore(Entry.Debride step) {
    List<InjectionRef> tested = new ArrayList<>();
    for (Caution caution : cautions) {
      if (caution instanceof Caution.BlockMayFail block
          && firstUnder(block.injection()).filter(step::equals).isPresent()) {
        tested.add(block.injection());
      }
    }
    return tested;
  }

  private Optional<Entry.Debride> firstUnder(InjectionRef block) {
    return sequence.stream()
        .dropWhile(
            entry -> !(entry instanceof Entry.Inject given && given.injection().equals(block)))
        .filter(Entry.Debride.class::isInstance)
        .map(Entry.Debride.class::cast)
        .filter(step -> step.needsNumb() && step.area().quadrant() == block.quadrant())
        .findFirst();
  }

  /** The entries in which pocket gel is put in. */
  public List<Entry.ApplyGel> gelEntries() {
    return sequence.stream()
        .filter(Entry.ApplyGel.class::isInstance)
        .map(Entry.ApplyGel.class::cast)
        .toList();
  }
}
