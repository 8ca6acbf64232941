package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import quadrille.facts.practice.Frame;

/** What is due around the work of a visit, from the practice's table. */
final class FrameCheck {

  private FrameCheck() {}

  /** The parts that a visit must have, in order; those after the work come last. */
  static List<Frame.Task> due(Facts facts, boolean first, boolean last) {
    List<Frame.Task> tasks = new ArrayList<>();
    for (Frame.Task task : Frame.Task.values()) {
      Frame.Part part = facts.practice().frame().parts().get(task);
      if (part == null || part.seconds() == 0) {
        continue;
      }
      boolean due =
          switch (part.visits()) {
            case EVERY -> true;
            case FIRST -> first;
            case LAST -> last;
            case NONE -> false;
          };
      String agent = part.agent();
      boolean forbidden =
          agent != null
              && facts.alertRules().stream().anyMatch(rule -> rule.forbidsRinses().contains(agent));
      due |= part.alerts().stream().anyMatch(facts.alerts()::contains);
      if (due && !forbidden) {
        tasks.add(task);
      }
    }
    return tasks;
  }
}
