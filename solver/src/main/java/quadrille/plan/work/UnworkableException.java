package quadrille.plan.work;

import java.util.List;

/** The practice owns no insert that may be used for some of the work; carries all of it. */
public final class UnworkableException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<Unworkable> work;

  /**
   * @param work at least one, in the order of the work
   */
  public UnworkableException(List<Unworkable> work) {
    super("No owned insert may be used for " + work + ".");
    if (work.isEmpty()) {
      throw new IllegalArgumentException("There must be work that cannot be done.");
    }
    this.work = List.copyOf(work);
  }

  /** All the work that cannot be done, in order. */
  public List<Unworkable> work() {
    return work;
  }
}
