package quadrille.document;

import java.util.List;

/** A document that cannot be used; carries every fault found in it, in document order. */
public final class InvalidDocumentException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<Fault> faults;

  /**
   * @param faults at least one
   */
  public InvalidDocumentException(List<Fault> faults) {
    super(String.join("\n", faults.stream().map(Fault::message).toList()));
    if (faults.isEmpty()) {
      throw new IllegalArgumentException("An invalid document needs at least one fault.");
    }
    this.faults = List.copyOf(faults);
  }

  /** Every fault, in document order. */
  public List<Fault> faults() {
    return faults;
  }
}
