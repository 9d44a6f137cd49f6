using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile;

/// <summary>The checked values of a case file, by the declaration of their key.</summary>
internal sealed class CaseValues
{
    private readonly Dictionary<CaseKey, (object? Value, int Line)> values = [];

    /// <summary>Takes note of a key of the file.</summary>
    /// <param name="key">Declaration of the key.</param>
    /// <param name="value">The checked value; null where it cannot be used and a problem was noted.</param>
    /// <param name="line">Line of the key, from 1.</param>
    public void Add(CaseKey key, object? value, int line) => values[key] = (value, line);

    /// <summary>Whether the key stands in the file, usable or not.</summary>
    /// <param name="key">Declaration of the key.</param>
    public bool Has(CaseKey key) => values.ContainsKey(key);

    /// <summary>Whether the key stands in the file with a value that can be used.</summary>
    /// <param name="key">Declaration of the key.</param>
    public bool IsUsable(CaseKey key) => values.TryGetValue(key, out (object? Value, int Line) found) && found.Value is not null;

    /// <summary>Line of the key, from 1; 0 where it is not in the file.</summary>
    /// <param name="key">Declaration of the key.</param>
    public int LineOf(CaseKey key) => values.TryGetValue(key, out (object? Value, int Line) found) ? found.Line : 0;

    /// <summary>The value, or another where the key is not in the file.</summary>
    /// <typeparam name="T">Type of the value.</typeparam>
    /// <param name="key">Declaration of the key.</param>
    /// <param name="otherwise">What holds where the key is missing.</param>
    public T Or<T>(TypedCaseKey<T> key, T otherwise)
        where T : notnull =>
        values.TryGetValue(key, out (object? Value, int Line) found) && found.Value is T value ? value : otherwise;

    /// <summary>The number, or null where the key is not in the file.</summary>
    /// <param name="key">Declaration of the key.</param>
    public double? Number(TypedCaseKey<double> key) =>
        values.TryGetValue(key, out (object? Value, int Line) found) && found.Value is double value ? value : null;

    /// <summary>The value, or null where the key is not in the file.</summary>
    /// <typeparam name="T">Type of the value.</typeparam>
    /// <param name="key">Declaration of the key.</param>
    public T? Optional<T>(TypedCaseKey<T> key)
        where T : class =>
        values.TryGetValue(key, out (object? Value, int Line) found) ? found.Value as T : null;
}
