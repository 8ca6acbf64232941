package quadrille.treatment.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Agent;
import quadrille.plan.anaesthesia.Doses;

/** What a visit really gave, held against the most that the patient may have on a day. */
public final class GivenDoses {

  private GivenDoses() {}

  /**
   * Checks what a recorded visit gave, with what visits recorded before it gave on the same day.
   * Agents that the course's practice does not know are left out.
   */
  public static Doses.Check check(CourseLog log, CourseLog.Recorded visit) {
    List<Doses.Amount> earlier = new ArrayList<>();
    for (CourseLog.Recorded other : log.recorded()) {
      if (other.entry() < visit.entry() && other.done().date().equals(visit.done().date())) {
        earlier.addAll(amounts(log, other.done()));
      }
    }
    return new Doses(log.practice(), log.planned().chart().patient())
        .check(amounts(log, visit.done()), visit.done().gelCartridges(), earlier);
  }

  private static List<Doses.Amount> amounts(CourseLog log, VisitDone done) {
    List<Doses.Amount> amounts = new ArrayList<>();
    for (Given given : done.injections()) {
      @Nullable Agent agent = log.practice().agents().get(given.agent());
      if (agent != null) {
        amounts.add(new Doses.Amount(agent, given.ml()));
      }
    }
    return amounts;
  }
}
