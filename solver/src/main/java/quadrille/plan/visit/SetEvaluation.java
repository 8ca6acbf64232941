package quadrille.plan.visit;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Agent;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.Doses;

/**
 * What follows from which steps a visit holds, whatever their order.
 *
 * @param workSeconds working seconds of the steps
 * @param gelAspects how many steps have pocket gel put in
 * @param chartSeconds charting at the end of the visit
 * @param areas which areas are worked on, as bits
 * @param areasByPass for gross, fine and finishing: which areas have that pass here, as bits
 * @param inserts which inserts it uses, as bits by the case's index
 * @param wrongInsert steps that would touch an implant with anything but a sleeved insert at low
 *     power, or a natural tooth with a sleeve
 * @param dosings the injections that could serve, each with its agents, in the order in which they
 *     are tried; where none keeps the rules, the one that breaks them least
 */
public record SetEvaluation(
    StepSet steps,
    int count,
    int workSeconds,
    int gelAspects,
    int chartSeconds,
    StepSet blocks,
    long areas,
    long[] areasByPass,
    int quadrantsWithFine,
    long inserts,
    int wrongInsert,
    List<Dosing> dosings) {

  /**
   * Injections for the visit, with what is injected.
   *
   * @param cover the injections; one without groups where no step needs any
   * @param secondSide injections on the side that has fewer, those left out that bind to none
   * @param doubleBlocks pairs of right and left injections of a kind that is never given on both
   *     sides
   * @param unnumbable targets that no injection of the practice, or no allowed agent, can numb
   * @param shares agents first, then gel
   * @param sharePermille sum of the dose shares, in thousandths, rounded up
   * @param epinephrineMicrograms given
   * @param excess by how much the dose limits are overstepped, thousandths of a maximum; 0 where
   *     allowed
   * @param noRoomToRepeat how many of the injections may fail and could not be repeated within the
   *     doses of the visit
   * @param neededWorkSeconds that must be booked for the visit's working part, with what a failed
   *     injection adds
   * @param groupSeconds by group, seconds to give it
   * @param needs by step of the case: groups waited for, as triples of group, seconds from its
   *     start until numb, and seconds from its start until it wears off; null where the step waits
   *     for nothing
   */
  public record Dosing(
      Cover cover,
      int secondSide,
      int doubleBlocks,
      int unnumbable,
      List<Doses.Share> shares,
      int sharePermille,
      int epinephrineMicrograms,
      int excess,
      int cartridges,
      int noRoomToRepeat,
      int neededWorkSeconds,
      int[] groupSeconds,
      int[] @Nullable [] needs) {

    public int injections() {
      return cover.injections().size();
    }

    /** How many of the injections are deep blocks. */
    public int deepBlocks() {
      return (int)
          cover.injections().stream().filter(placed -> placed.injection().deepBlock()).count();
    }

    /** Whole seconds that the agents of its lower blocks cost. */
    public int strongBlockSeconds() {
      return cover.strongBlockSeconds();
    }

    /** Whether a group holds a deep block. */
    boolean deep(int group) {
      return cover.groups().get(group).injections().stream()
          .anyMatch(placed -> placed.injection().deepBlock());
    }

    /** What is injected, in the order first met. */
    public List<Agent> agents() {
      return cover.amounts().stream().map(Doses.Amount::agent).toList();
    }
  }

  /**
   * Whether no order can make a legal visit of these steps, since they want both sides numb, or
   * both sides blocked that never may be.
   */
  public boolean hopeless(StagingCase staging) {
    Dosing first = dosings.get(0);
    return first.doubleBlocks() > 0
        || (staging.practice().appointments().oneNumbSide() && first.secondSide() > 0);
  }

  /** Seconds after the work of such a visit. */
  public int closeSeconds(StagingCase staging) {
    return chartSeconds + staging.close();
  }

  public int distinctInserts() {
    return Long.bitCount(inserts);
  }
}
