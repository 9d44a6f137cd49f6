using BosFlow.Cli.CaseFile.Toml;

namespace BosFlow.Cli.CaseFile.Keys;

/// <summary>A key whose checked value has a known type.</summary>
/// <typeparam name="T">Type of the value.</typeparam>
internal abstract class TypedCaseKey<T> : CaseKey
    where T : notnull
{
    /// <inheritdoc/>
    public sealed override object? Read(TomlNode node, out string? problem)
    {
        problem = TryRead(node, out T? value);
        return problem is null ? value : null;
    }

    /// <summary>Reads and checks a value.</summary>
    /// <param name="node">The value in the file.</param>
    /// <param name="value">The value.</param>
    /// <returns>Why the value cannot be used; null where it can.</returns>
    protected abstract string? TryRead(TomlNode node, out T? value);

    /// <summary>The sentence for a value of another kind.</summary>
    /// <param name="node">The value in the file.</param>
    protected string WrongKind(TomlNode node)
    {
        string hint = node.Kind == TomlKind.Text && node.Value is string text && Kind != "text" && double.TryParse(
            text, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out _)
            ? ", without quotation marks"
            : string.Empty;
        return $"is {node.KindInWords}; give {Allowed}{hint}.";
    }
}
