using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace BosFlow.Architecture.Tests.Messages;

/// <summary>The texts that an expression of the sources can give, with words in angle brackets for what is only known at run time.</summary>
/// <param name="index">Where members are looked up.</param>
internal sealed partial class MessageText(SourceIndex index)
{
    private const int Deepest = 5;
    private const int MostTexts = 60;

    /// <summary>The texts of an expression.</summary>
    /// <param name="expression">The expression.</param>
    public IReadOnlyList<string> Of(ExpressionSyntax expression) => [.. Texts(expression, 0).Distinct().Take(MostTexts)];

    private IEnumerable<string> Texts(ExpressionSyntax expression, int depth)
    {
        if (depth > Deepest)
            return [Placeholder(expression)];
        return expression switch
        {
            LiteralExpressionSyntax literal => literal.IsKind(SyntaxKind.NullLiteralExpression) ? [] : [literal.Token.ValueText],
            InterpolatedStringExpressionSyntax text => Joined(text, depth),
            ParenthesizedExpressionSyntax inner => Texts(inner.Expression, depth),
            PostfixUnaryExpressionSyntax certain => Texts(certain.Operand, depth),
            ConditionalExpressionSyntax choice => Texts(choice.WhenTrue, depth).Concat(Texts(choice.WhenFalse, depth)),
            SwitchExpressionSyntax choice => choice.Arms.SelectMany(arm => Texts(arm.Expression, depth)),
            BinaryExpressionSyntax sum when sum.IsKind(SyntaxKind.AddExpression) => Product(Texts(sum.Left, depth), Texts(sum.Right, depth)),
            BinaryExpressionSyntax either when either.IsKind(SyntaxKind.CoalesceExpression) => Texts(either.Left, depth).Concat(Texts(either.Right, depth)),
            CollectionExpressionSyntax list => list.Elements.SelectMany(element => Elements(element, depth)),
            ThrowExpressionSyntax => [],
            CastExpressionSyntax cast => Texts(cast.Expression, depth),
            MemberAccessExpressionSyntax { Name.Identifier.Text: "Empty", Expression: PredefinedTypeSyntax } => [string.Empty],
            InvocationExpressionSyntax call when IsFormatting(call) => Texts(call.ArgumentList.Arguments[^1].Expression, depth),
            InvocationExpressionSyntax call => Resolved(call, index.Method(call), depth),
            IdentifierNameSyntax name => Resolved(name, index.Value(name), depth),
            _ => [Placeholder(expression)],
        };
    }

    private IEnumerable<string> Elements(CollectionElementSyntax element, int depth) => element switch
    {
        ExpressionElementSyntax one => Texts(one.Expression, depth),
        _ => [],
    };

    private string[] Resolved(ExpressionSyntax expression, IReadOnlyList<ExpressionSyntax> values, int depth)
    {
        string[] texts = [.. values.SelectMany(value => Texts(value, depth + 1)).Distinct().Take(MostTexts)];
        // Words chosen at run time are worth listing only where they are words.
        return texts.Length > 0 && texts.All(text => !OnlyPlaceholder().IsMatch(text)) ? texts : [Placeholder(expression)];
    }

    private IEnumerable<string> Joined(InterpolatedStringExpressionSyntax text, int depth)
    {
        IEnumerable<string> texts = [string.Empty];
        foreach (InterpolatedStringContentSyntax part in text.Contents)
        {
            IEnumerable<string> next = part switch
            {
                InterpolatedStringTextSyntax literal => [literal.TextToken.ValueText],
                InterpolationSyntax value => Texts(value.Expression, depth),
                _ => [],
            };
            texts = Product(texts, next);
        }

        return texts;
    }

    private static string[] Product(IEnumerable<string> left, IEnumerable<string> right)
    {
        string[] ends = [.. right.Distinct().Take(MostTexts)];
        return ends.Length == 0 ? [.. left] : [.. left.SelectMany(start => ends.Select(end => start + end)).Take(MostTexts)];
    }

    private static bool IsFormatting(InvocationExpressionSyntax call) =>
        call.ArgumentList.Arguments.Count > 0 && call.Expression.ToString() is "FormattableString.Invariant" or "string.Create" or "Invariant" or "Text";

    private static string Placeholder(ExpressionSyntax expression)
    {
        string name = expression switch
        {
            InvocationExpressionSyntax { ArgumentList.Arguments: { Count: > 0 } arguments } call when call.Expression.ToString() is "string.Join" or "Path.GetFileName" or "TomlLiteral.Of" => arguments[^1].Expression.ToString(),
            InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax { Name.Identifier.Text: "LineOf" } } => "line",
            InvocationExpressionSyntax { Expression: MemberAccessExpressionSyntax { Name.Identifier.Text: "ToString" or "Up" or "Text" or "Exact" } member } => member.Expression.ToString(),
            InvocationExpressionSyntax call => Last(call.Expression.ToString()),
            _ => expression.ToString(),
        };
        string words = string.Join(' ', Word().Matches(Last(name)).Select(word => word.Value)).ToLowerInvariant();
        return words switch
        {
            "message" => "<reason>",
            "full name" => "<key>",
            "line" => "<line>",
            "" or "e" => "<value>",
            _ => $"<{words}>",
        };
    }

    private static string Last(string name) => Identifier().Matches(name.Split('(')[0]) is { Count: > 0 } all ? all[^1].Value : string.Empty;

    [GeneratedRegex("[A-Z]?[a-z]+|[A-Z]+(?![a-z])")]
    private static partial Regex Word();

    [GeneratedRegex("[A-Za-z]+")]
    private static partial Regex Identifier();

    [GeneratedRegex("^(<[^>]*>)+$")]
    private static partial Regex OnlyPlaceholder();
}
