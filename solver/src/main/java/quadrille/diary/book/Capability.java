package quadrille.diary.book;

import java.util.List;

/** What a clinician may do, and a visit may need. May grow. */
public enum Capability {
  /** Give local anaesthetics by injection. */
  INJECT("inject");

  /** All, in the order in which faults list them. */
  public static final List<Capability> ALL = List.of(values());

  private final String word;

  Capability(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
