package quadrille.diary.booking.problem;

import java.util.List;

/**
 * Where a visit can go.
 *
 * @param start minute of the {@link TimeLine}
 * @param clinician place in the diary's list
 * @param chair place in the diary's list
 * @param calls who comes only to inject, where the clinician may not
 */
public record Slot(int start, int clinician, int chair, List<Call> calls) {

  public Slot {
    calls = List.copyOf(calls);
  }

  /** One whose clinician injects, if anybody does. */
  public Slot(int start, int clinician, int chair) {
    this(start, clinician, chair, List.of());
  }

  /**
   * That another clinician injects.
   *
   * @param clinician place in the diary's list
   * @param from minute of the {@link TimeLine}
   * @param to first minute after it
   */
  public record Call(int clinician, int from, int to) {}

  /** The minutes of those who come only to inject. */
  public int callMinutes() {
    return calls.stream().mapToInt(call -> call.to() - call.from()).sum();
  }
}
