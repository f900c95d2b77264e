-- against ripple-carry-adder n=4: right
library ieee;
use ieee.std_logic_1164.all;
use ieee.numeric_std.all;
entity ripple is
  port (a, b : in unsigned(3 downto 0); carry_in : in std_logic;
        sum : out unsigned(3 downto 0); carry : out std_logic);
end entity;
architecture sums of ripple is
  signal total : unsigned(4 downto 0);
begin
  total <= resize(a, 5) + resize(b, 5) + ("" & carry_in);
  sum <= total(3 downto 0);
  carry <= total(4);
end architecture;
