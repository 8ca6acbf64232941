package quadrille.document;

/**
 * One thing wrong with a document.
 *
 * @param place where: file and line, with a JSON pointer or a column name
 * @param found what stands there, quoted as written
 * @param allowed what may stand there, and a suggestion where one is near
 */
public record Fault(String place, String found, String allowed) implements Comparable<Fault> {

  /** The one-line message a person reads. */
  public String message() {
    return place + ": found " + found + "; allowed: " + allowed;
  }

  @Override
  public int compareTo(Fault other) {
    return message().compareTo(other.message());
  }
}
