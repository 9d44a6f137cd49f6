namespace BosFlow.Cli.CaseFile.Toml;

/// <summary>What a TOML value is.</summary>
internal enum TomlKind
{
    /// <summary>A string.</summary>
    Text,

    /// <summary>A whole number.</summary>
    Integer,

    /// <summary>A number with a decimal point or exponent, or inf or nan.</summary>
    Number,

    /// <summary>true or false.</summary>
    Boolean,

    /// <summary>An array.</summary>
    List,

    /// <summary>An inline table inside a value.</summary>
    Table,

    /// <summary>A date or a time.</summary>
    Date,
}
