using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile;

/// <summary>The checked values of a case file, by the declaration of their key.</summary>
internal sealed class CaseValues
{
    private readonly Dictionary<CaseKey, (object? Value, CasePlace Place)> values = [];

    /// <summary>Takes note of a key of the file.</summary>
    /// <param name="key">Declaration of the key.</param>
    /// <param name="value">The checked value; null where it cannot be used and a problem was noted.</param>
    /// <param name="place">Where it was given; what is given later takes the place of what was given before.</param>
    public void Add(CaseKey key, object? value, CasePlace place) => values[key] = (value, place);

    /// <summary>Forgets a key, since something that was given elsewhere takes its place.</summary>
    /// <param name="key">Declaration of the key.</param>
    public void Remove(CaseKey key) => values.Remove(key);

    /// <summary>Whether the key stands in the file, usable or not.</summary>
    /// <param name="key">Declaration of the key.</param>
    public bool Has(CaseKey key) => values.ContainsKey(key);

    /// <summary>Whether the key stands in the file with a value that can be used.</summary>
    /// <param name="key">Declaration of the key.</param>
    public bool IsUsable(CaseKey key) => values.TryGetValue(key, out (object? Value, CasePlace Place) found) && found.Value is not null;

    /// <summary>Where the key was given; line 0 where it was not.</summary>
    /// <param name="key">Declaration of the key.</param>
    public CasePlace LineOf(CaseKey key) => values.TryGetValue(key, out (object? Value, CasePlace Place) found) ? found.Place : default;

    /// <summary>The value, or another where the key is not in the file.</summary>
    /// <typeparam name="T">Type of the value.</typeparam>
    /// <param name="key">Declaration of the key.</param>
    /// <param name="otherwise">What holds where the key is missing.</param>
    public T Or<T>(TypedCaseKey<T> key, T otherwise)
        where T : notnull =>
        values.TryGetValue(key, out (object? Value, CasePlace Place) found) && found.Value is T value ? value : otherwise;

    /// <summary>The number, or null where the key is not in the file.</summary>
    /// <param name="key">Declaration of the key.</param>
    public double? Number(TypedCaseKey<double> key) =>
        values.TryGetValue(key, out (object? Value, CasePlace Place) found) && found.Value is double value ? value : null;

    /// <summary>The value, or null where the key is not in the file.</summary>
    /// <typeparam name="T">Type of the value.</typeparam>
    /// <param name="key">Declaration of the key.</param>
    public T? Optional<T>(TypedCaseKey<T> key)
        where T : class =>
        values.TryGetValue(key, out (object? Value, CasePlace Place) found) ? found.Value as T : null;
}
